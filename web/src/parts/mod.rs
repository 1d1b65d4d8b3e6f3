//! The small parts every region is set from: stamps, blanks, dialogs, fields, choices, phrases.

mod blank;
mod choice;
mod dialog;
mod field;
mod phrase;
mod stamp;

pub use blank::{ChoiceBlank, QuantityBlank, TextBlank};
pub(crate) use choice::choose;
pub use choice::{Choice, Choosing, Options};
pub use dialog::{Anchor, Sheetlet, anchor_of};
pub use field::{CountField, QuantityField, QuantityFieldProps, TextField, TextFieldProps, Typed};
pub(crate) use field::{quantity_field, text_field};
pub use phrase::{formula_view, symbol_view};
pub use stamp::{Stamp, outcome_class};
