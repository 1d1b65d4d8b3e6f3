//! Parts of one kind by their number.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};

use crate::PartId;

/// Parts of one kind, in the order of their numbers.
///
/// A sorted list rather than the standard library's tree: a catalogue has some dozens of parts of a kind, is filled once,
/// and has thirteen kinds; thirteen copies of a tree's code would make the page larger than all data of the catalogue.
#[derive(Clone, Debug, PartialEq)]
pub struct Parts<T> {
    sorted: Vec<(PartId, T)>,
}

impl<T> Parts<T> {
    fn position(&self, id: &PartId) -> Result<usize, usize> {
        self.sorted.binary_search_by(|(other, _)| other.cmp(id))
    }

    /// The part with this number.
    #[must_use]
    pub fn get(&self, id: &PartId) -> Option<&T> {
        self.position(id).ok().map(|at| &self.sorted[at].1)
    }

    /// The part with this number, to change it.
    pub fn get_mut(&mut self, id: &PartId) -> Option<&mut T> {
        self.position(id).ok().map(|at| &mut self.sorted[at].1)
    }

    /// Whether there is a part with this number.
    #[must_use]
    pub fn contains_key(&self, id: &PartId) -> bool {
        self.position(id).is_ok()
    }

    /// Puts a part in, in place of one with the same number.
    pub fn insert(&mut self, id: PartId, part: T) {
        match self.position(&id) {
            Ok(at) => self.sorted[at].1 = part,
            Err(at) => self.sorted.insert(at, (id, part)),
        }
    }

    /// Takes a part out.
    pub fn remove(&mut self, id: &PartId) -> Option<T> {
        self.position(id).ok().map(|at| self.sorted.remove(at).1)
    }

    /// Takes all parts out.
    pub fn clear(&mut self) {
        self.sorted.clear();
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.sorted.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.sorted.is_empty()
    }

    /// Numbers and parts, in the order of the numbers.
    pub fn iter(&self) -> PartsIter<'_, T> {
        self.sorted.iter().map(|(id, part)| (id, part))
    }

    /// The numbers, in their order.
    pub fn keys(&self) -> impl DoubleEndedIterator<Item = &PartId> + ExactSizeIterator + Clone {
        self.sorted.iter().map(|(id, _)| id)
    }

    /// The parts, in the order of their numbers.
    pub fn values(&self) -> impl DoubleEndedIterator<Item = &T> + ExactSizeIterator + Clone {
        self.sorted.iter().map(|(_, part)| part)
    }

    /// The parts, to change them.
    pub fn values_mut(&mut self) -> impl Iterator<Item = &mut T> {
        self.sorted.iter_mut().map(|(_, part)| part)
    }
}

/// Numbers and parts, in the order of the numbers.
pub type PartsIter<'a, T> =
    std::iter::Map<std::slice::Iter<'a, (PartId, T)>, fn(&'a (PartId, T)) -> (&'a PartId, &'a T)>;

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Parts<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Each<T>(PhantomData<T>);

        impl<'de, T: Deserialize<'de>> Visitor<'de> for Each<T> {
            type Value = Parts<T>;

            fn expecting(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
                to.write_str("parts by their number")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Parts<T>, A::Error> {
                let mut parts = Parts::default();
                while let Some((id, part)) = map.next_entry()? {
                    parts.insert(id, part);
                }
                Ok(parts)
            }
        }

        from.deserialize_map(Each(PhantomData))
    }
}

impl<T> Default for Parts<T> {
    fn default() -> Self {
        Self { sorted: Vec::new() }
    }
}

impl<T> std::ops::Index<&PartId> for Parts<T> {
    type Output = T;

    /// As of any map: only for a number that is known to be there.
    fn index(&self, id: &PartId) -> &T {
        match self.position(id) {
            Ok(at) | Err(at) => &self.sorted[at].1,
        }
    }
}

impl<'a, T> IntoIterator for &'a Parts<T> {
    type Item = (&'a PartId, &'a T);
    type IntoIter = PartsIter<'a, T>;

    fn into_iter(self) -> PartsIter<'a, T> {
        self.iter()
    }
}

impl<T> IntoIterator for Parts<T> {
    type Item = (PartId, T);
    type IntoIter = std::vec::IntoIter<(PartId, T)>;

    fn into_iter(self) -> Self::IntoIter {
        self.sorted.into_iter()
    }
}
