//! What the page and its worker say to one another. Both are built together, so the bytes carry no version.

use rules::course::Course;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

/// What the page asks for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Order {
    /// From now on take parts from this text of a catalogue; from the shipped one with none.
    Catalogue(Option<String>),
    /// From now on reckon with this weather, in the form it is kept in; with the brief's own climate with none.
    Climate(Option<String>),
    /// Run the project through day and year. Whatever was running is dropped.
    Run {
        /// Returned with all that is said about it.
        number: u32,
        /// The project, as it stands in its file.
        project: String,
    },
    /// Drop what is running.
    Stop,
    /// Read a weather file.
    Read {
        /// Its name.
        name: String,
        /// What is in it.
        bytes: Vec<u8>,
    },
    /// Run the project through the year so many times, and say how long each took.
    Measure {
        /// The project, as it stands in its file.
        project: String,
        /// How many times.
        times: u32,
    },
}

/// What the worker says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Word {
    /// It is there and takes orders.
    Ready,
    /// It is at it.
    Progress {
        /// Of the order.
        number: u32,
        /// How much is done, 0…1.
        share: f64,
    },
    /// The run is done.
    Answer {
        /// Of the order.
        number: u32,
        /// What came out.
        course: Box<Course>,
    },
    /// There is nothing to be had, and why.
    Problem {
        /// Of the order.
        number: u32,
        /// In words for the user.
        text: String,
    },
    /// A weather file was read.
    Climate(Climate),
    /// A weather file was not taken.
    NoClimate {
        /// Its name.
        file: String,
        /// Each with its place, what was found, and what is allowed.
        problems: Vec<String>,
    },
    /// The weather that was kept cannot be used any more; the brief's own climate is in use.
    Unkept {
        /// Each with its place, what was found, and what is allowed.
        problems: Vec<String>,
    },
    /// How long runs took, ms.
    Measured {
        /// Compartments of the project; 0 when there is no course of it.
        rooms: u32,
        /// Sun and light on the faces, hour by hour: once for each site, bearing and weather.
        preparing: Vec<f64>,
        /// The design days and the runs from a moment on.
        days: Vec<f64>,
        /// The year's 8760 hours and the course made of all.
        running: Vec<f64>,
    },
}

/// A weather file as the page keeps it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Climate {
    /// Name of the file.
    pub file: String,
    /// What the weather is called.
    pub name: String,
    /// Where it was measured, in words.
    pub place: String,
    /// What was corrected or assumed.
    pub notes: Vec<String>,
    /// The weather itself, in the form it is kept and sent in.
    pub kept: String,
}

/// A word or an order as bytes.
#[must_use]
pub fn packed<T: Serialize>(said: &T) -> Vec<u8> {
    // Plain data of known length, which can always be written; nothing at all is understood by nobody.
    postcard::to_allocvec(said).unwrap_or_default()
}

/// A word or an order out of its bytes; `None` when they are none.
#[must_use]
pub fn unpacked<T: DeserializeOwned>(bytes: &[u8]) -> Option<T> {
    postcard::from_bytes(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn orders_and_words_come_out_as_they_went_in() {
        let order = Order::Run { number: 7, project: "{\"name\": \"x\"}".to_owned() };
        assert_eq!(unpacked::<Order>(&packed(&order)), Some(order));
        let word = Word::Progress { number: 7, share: 0.25 };
        assert_eq!(unpacked::<Word>(&packed(&word)), Some(word));
    }

    #[test]
    fn bytes_that_are_no_word_are_none() {
        assert_eq!(unpacked::<Order>(&[]), None);
        assert_eq!(unpacked::<Word>(&[250, 1, 2]), None);
    }
}
