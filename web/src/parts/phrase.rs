//! Symbols and formulas as they are set on the page.

use leptos::prelude::*;

use crate::lean::view;

/// A symbol: the letters before `_` in book italic, the rest as a subscript.
pub fn symbol_view(symbol: &str) -> impl IntoView + use<> {
    let (base, sub) = symbol.split_once('_').unwrap_or((symbol, ""));
    let (base, sub) = (base.to_owned(), sub.to_owned());
    view! { <span class="sym">{base}{(!sub.is_empty()).then(|| view! { <sub>{sub}</sub> })}</span> }
}

/// A formula: its symbols set like [`symbol_view`], operators and figures upright.
pub fn formula_view(formula: &str) -> impl IntoView + use<> {
    let mut pieces: Vec<AnyView> = Vec::new();
    let mut word = String::new();
    let flush = |word: &mut String, pieces: &mut Vec<AnyView>| {
        if word.is_empty() {
            return;
        }
        let text = std::mem::take(word);
        let is_function = matches!(text.as_str(), "max" | "min" | "sin" | "cos" | "atan" | "sqrt" | "ceil");
        if text.chars().next().is_some_and(char::is_alphabetic) && !is_function {
            pieces.push(symbol_view(&text).into_any());
        } else {
            pieces.push(text.into_any());
        }
    };
    for letter in formula.chars() {
        if letter.is_alphanumeric() || letter == '_' || letter == '.' {
            word.push(letter);
        } else {
            flush(&mut word, &mut pieces);
            pieces.push(letter.to_string().into_any());
        }
    }
    flush(&mut word, &mut pieces);
    view! { <span class="f f--line">{pieces}</span> }
}
