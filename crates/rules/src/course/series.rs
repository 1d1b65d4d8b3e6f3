//! A row of figures. Handed over in a form for machines they are bytes in one piece, so that a page and its worker pass
//! thousands of them at once; in a form for people they are a list of numbers.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Figures in equal steps of time, in single precision: they are drawn, not reckoned with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Series(pub Vec<f32>);

impl Series {
    /// The figure at a step.
    #[must_use]
    pub fn at(&self, step: usize) -> Option<f64> {
        self.0.get(step).map(|figure| f64::from(*figure))
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Least and greatest figure; `None` when there are none.
    #[must_use]
    pub fn range(&self) -> Option<(f64, f64)> {
        let mut figures = self.0.iter().copied();
        let first = figures.next()?;
        let (least, greatest) = figures.fold((first, first), |(low, high), next| (low.min(next), high.max(next)));
        Some((f64::from(least), f64::from(greatest)))
    }
}

impl FromIterator<f64> for Series {
    fn from_iter<I: IntoIterator<Item = f64>>(figures: I) -> Self {
        Self(figures.into_iter().map(|figure| figure as f32).collect())
    }
}

impl Serialize for Series {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if serializer.is_human_readable() {
            return self.0.serialize(serializer);
        }
        let bytes: Vec<u8> = self.0.iter().flat_map(|figure| figure.to_le_bytes()).collect();
        serializer.serialize_bytes(&bytes)
    }
}

impl<'de> Deserialize<'de> for Series {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        if deserializer.is_human_readable() {
            return Vec::deserialize(deserializer).map(Self);
        }
        let bytes = serde_bytes::ByteBuf::deserialize(deserializer)?;
        let (whole, rest) = bytes.as_chunks::<4>();
        if !rest.is_empty() {
            return Err(serde::de::Error::custom("a series of figures is cut off"));
        }
        Ok(Self(whole.iter().map(|figure| f32::from_le_bytes(*figure)).collect()))
    }
}

#[cfg(test)]
mod tests {
    use super::Series;

    fn series() -> Series {
        [1.5, -40.25, 1e6].into_iter().collect()
    }

    #[test]
    fn is_a_list_of_numbers_for_people() {
        let kept = serde_json::to_string(&series()).unwrap();
        assert_eq!(kept, "[1.5,-40.25,1000000.0]");
        assert_eq!(serde_json::from_str::<Series>(&kept).unwrap(), series());
        assert_eq!(series().range(), Some((-40.25, 1e6)));
    }

    #[test]
    fn is_bytes_in_one_piece_for_machines() {
        let kept = postcard::to_allocvec(&series()).unwrap();
        // The length, then four bytes for each figure: 1.5 is 3FC0 0000 in single precision (IEEE 754).
        assert_eq!(kept[..5], [12, 0, 0, 0xc0, 0x3f]);
        assert_eq!(postcard::from_bytes::<Series>(&kept).unwrap(), series());
    }

    #[test]
    fn says_so_when_cut_off() {
        assert!(postcard::from_bytes::<Series>(&[3, 1, 2, 3]).is_err());
        assert!(postcard::from_bytes::<Series>(&[12, 1, 2, 3]).is_err());
    }
}
