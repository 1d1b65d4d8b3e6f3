//! The one reader: from a plain value to any type that serde can read.

use serde::Deserialize;
use serde::de::value::StrDeserializer;
use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, Error, Expected, MapAccess, SeqAccess, Unexpected, VariantAccess,
    Visitor,
};

use super::misfit::Raised;
use super::{Misfit, Plain};

/// Reads a plain value.
///
/// # Errors
/// The first place at which the value is not what the type needs.
pub fn from_plain<'a, T: Deserialize<'a>>(value: &'a Plain) -> Result<T, Misfit> {
    T::deserialize(Reader(value)).map_err(Raised::into_misfit)
}

#[derive(Clone, Copy)]
struct Reader<'a>(&'a Plain);

impl Reader<'_> {
    /// Refuses what stands here. Not generic, so that it is compiled once.
    fn refuse(self, expected: &dyn Expected) -> Raised {
        let found = match self.0 {
            Plain::Nothing => Unexpected::Other("null"),
            Plain::Truth(yes) => Unexpected::Bool(*yes),
            Plain::Whole(number) => Unexpected::Signed(*number),
            Plain::Number(number) => Unexpected::Float(*number),
            Plain::Text(text) => Unexpected::Str(text),
            Plain::Other(what) => Unexpected::Other(what),
            Plain::List(_) => Unexpected::Seq,
            Plain::Table(_) => Unexpected::Map,
        };
        Raised::invalid_type(found, expected)
    }
}

/// Reads a whole number as whatever whole number is wanted: the visitor refuses what does not fit.
macro_rules! whole_numbers {
    ($($method:ident)*) => {$(
        fn $method<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
            match self.0 {
                Plain::Whole(number) => visitor.visit_i64(*number),
                _ => Err(self.refuse(&visitor)),
            }
        }
    )*};
}

impl<'a> Deserializer<'a> for Reader<'a> {
    type Error = Raised;

    fn deserialize_any<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
        match self.0 {
            Plain::Nothing => visitor.visit_unit(),
            Plain::Truth(_) => self.deserialize_bool(visitor),
            Plain::Whole(_) => self.deserialize_i64(visitor),
            Plain::Number(_) => self.deserialize_f64(visitor),
            Plain::Text(_) => self.deserialize_str(visitor),
            Plain::Other(_) => Err(self.refuse(&visitor)),
            Plain::List(_) => self.deserialize_seq(visitor),
            Plain::Table(_) => self.deserialize_map(visitor),
        }
    }

    whole_numbers! {
        deserialize_i8 deserialize_i16 deserialize_i32 deserialize_i64
        deserialize_u8 deserialize_u16 deserialize_u32 deserialize_u64
    }

    fn deserialize_bool<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
        match self.0 {
            Plain::Truth(yes) => visitor.visit_bool(*yes),
            _ => Err(self.refuse(&visitor)),
        }
    }

    fn deserialize_f64<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
        match self.0 {
            #[expect(clippy::cast_precision_loss, reason = "a number that large is out of every range")]
            Plain::Whole(number) => visitor.visit_f64(*number as f64),
            Plain::Number(number) => visitor.visit_f64(*number),
            _ => Err(self.refuse(&visitor)),
        }
    }

    fn deserialize_str<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
        match self.0 {
            Plain::Text(text) => visitor.visit_str(text),
            _ => Err(self.refuse(&visitor)),
        }
    }

    fn deserialize_string<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
        self.deserialize_str(visitor)
    }

    fn deserialize_identifier<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
        match self.0 {
            Plain::Nothing => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_unit<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
        match self.0 {
            Plain::Nothing => visitor.visit_unit(),
            _ => Err(self.refuse(&visitor)),
        }
    }

    fn deserialize_ignored_any<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
        visitor.visit_unit()
    }

    fn deserialize_newtype_struct<V: Visitor<'a>>(self, _: &'static str, visitor: V) -> Result<V::Value, Raised> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
        match self.0 {
            Plain::List(list) => visitor.visit_seq(Elements { list, next: 0 }),
            _ => Err(self.refuse(&visitor)),
        }
    }

    fn deserialize_map<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Raised> {
        match self.0 {
            Plain::Table(fields) => visitor.visit_map(Fields { fields, next: 0 }),
            _ => Err(self.refuse(&visitor)),
        }
    }

    fn deserialize_struct<V: Visitor<'a>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Raised> {
        self.deserialize_map(visitor)
    }

    fn deserialize_enum<V: Visitor<'a>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Raised> {
        match self.0 {
            Plain::Text(word) => visitor.visit_enum(Choice { word, holds: None }),
            Plain::Table(fields) => match fields.as_slice() {
                [(word, holds)] => visitor.visit_enum(Choice { word, holds: Some(holds) }),
                _ => Err(Raised::invalid_value(Unexpected::Map, &"map with a single key")),
            },
            _ => Err(self.refuse(&"string or map")),
        }
    }

    serde::forward_to_deserialize_any! { <V: Visitor<'a>> f32 char bytes byte_buf unit_struct tuple tuple_struct }
}

/// The elements of a list, in turn.
struct Elements<'a> {
    list: &'a [Plain],
    next: usize,
}

impl<'a> SeqAccess<'a> for Elements<'a> {
    type Error = Raised;

    fn next_element_seed<T: DeserializeSeed<'a>>(&mut self, seed: T) -> Result<Option<T::Value>, Raised> {
        let Some(element) = self.list.get(self.next) else { return Ok(None) };
        self.next += 1;
        seed.deserialize(Reader(element)).map(Some).map_err(|raised| raised.inside(&format!("[{}]", self.next - 1)))
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.list.len() - self.next)
    }
}

/// The fields of a table, in turn.
struct Fields<'a> {
    fields: &'a [(String, Plain)],
    next: usize,
}

impl<'a> MapAccess<'a> for Fields<'a> {
    type Error = Raised;

    fn next_key_seed<K: DeserializeSeed<'a>>(&mut self, seed: K) -> Result<Option<K::Value>, Raised> {
        let Some((name, _)) = self.fields.get(self.next) else { return Ok(None) };
        seed.deserialize(StrDeserializer::<Raised>::new(name)).map(Some).map_err(|raised| raised.inside(name))
    }

    fn next_value_seed<T: DeserializeSeed<'a>>(&mut self, seed: T) -> Result<T::Value, Raised> {
        let Some((name, value)) = self.fields.get(self.next) else {
            return Err(Raised::custom("a value was asked for after the last field"));
        };
        self.next += 1;
        seed.deserialize(Reader(value)).map_err(|raised| raised.inside(name))
    }
}

/// One choice of several: its word, and what it holds.
struct Choice<'a> {
    word: &'a str,
    holds: Option<&'a Plain>,
}

impl Choice<'_> {
    fn refuse(&self, expected: &dyn Expected) -> Raised {
        Raised::invalid_type(Unexpected::UnitVariant, expected).inside(self.word)
    }
}

impl<'a> EnumAccess<'a> for Choice<'a> {
    type Error = Raised;
    type Variant = Self;

    fn variant_seed<T: DeserializeSeed<'a>>(self, seed: T) -> Result<(T::Value, Self), Raised> {
        Ok((seed.deserialize(StrDeserializer::<Raised>::new(self.word))?, self))
    }
}

impl<'a> VariantAccess<'a> for Choice<'a> {
    type Error = Raised;

    fn unit_variant(self) -> Result<(), Raised> {
        match self.holds {
            None | Some(Plain::Nothing) => Ok(()),
            Some(other) => Err(Reader(other).refuse(&"unit").inside(self.word)),
        }
    }

    fn newtype_variant_seed<T: DeserializeSeed<'a>>(self, seed: T) -> Result<T::Value, Raised> {
        match self.holds {
            Some(value) => seed.deserialize(Reader(value)).map_err(|raised| raised.inside(self.word)),
            None => Err(self.refuse(&"newtype variant")),
        }
    }

    fn tuple_variant<V: Visitor<'a>>(self, _: usize, visitor: V) -> Result<V::Value, Raised> {
        match self.holds {
            Some(value) => Reader(value).deserialize_seq(visitor).map_err(|raised| raised.inside(self.word)),
            None => Err(self.refuse(&"tuple variant")),
        }
    }

    fn struct_variant<V: Visitor<'a>>(self, _: &'static [&'static str], visitor: V) -> Result<V::Value, Raised> {
        match self.holds {
            Some(value) => Reader(value).deserialize_map(visitor).map_err(|raised| raised.inside(self.word)),
            None => Err(self.refuse(&"struct variant")),
        }
    }
}
