//! The styles of what comes later: they travel with that program, as nothing of the first look needs them.

use js_sys::{Array, Function, Reflect};
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};

/// In the order in which they count.
const SHEETS: [&str; 4] = [
    include_str!("../styles/forms.css"),
    include_str!("../styles/bench.css"),
    include_str!("../styles/charts.css"),
    include_str!("../styles/wiring.css"),
];

/// Puts them on the document, after those that it came with.
pub(crate) fn adopt() {
    // A browser that knows no constructed sheets shows everything, only plainer.
    let _ = try_adopt();
}

fn try_adopt() -> Result<(), JsValue> {
    let constructor: Function = Reflect::get(&js_sys::global(), &"CSSStyleSheet".into())?.dyn_into()?;
    let sheet = Reflect::construct(&constructor, &Array::new())?;
    let replace: Function = Reflect::get(&sheet, &"replaceSync".into())?.dyn_into()?;
    replace.call1(&sheet, &SHEETS.concat().into())?;
    Reflect::set(&document(), &"adoptedStyleSheets".into(), &Array::of1(&sheet)).map(drop)
}
