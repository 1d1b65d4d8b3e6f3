//! What a person does with mouse and keyboard.

use super::Page;
use anyhow::Result;
use fantoccini::actions::{InputSource, KeyAction, KeyActions, MOUSE_BUTTON_LEFT, MouseActions, PointerAction};
use fantoccini::elements::Element;
use fantoccini::key::Key;
use std::time::Duration;

impl Page {
    /// Clicks what has this role and name.
    pub(crate) async fn click(&self, role: &str, name: &str) -> Result<()> {
        Ok(self.find(role, name).await?.click().await?)
    }

    /// Replaces the text of a field, and leaves it with Enter.
    pub(crate) async fn enter(&self, name: &str, text: &str) -> Result<()> {
        self.find("textbox", name).await?.click().await?;
        self.press(&[Key::Control], 'a').await?;
        for character in text.chars() {
            self.press(&[], character).await?;
        }
        self.press(&[], Key::Enter).await
    }

    /// Presses a key, wherever the focus is, with others held.
    pub(crate) async fn press(&self, held: &[Key], key: impl Into<char>) -> Result<()> {
        let held: Vec<char> = held.iter().map(|key| char::from(*key)).collect();
        let key = key.into();
        let down = held.iter().copied().chain([key]).map(|value| KeyAction::Down { value });
        let up = [key].into_iter().chain(held.iter().rev().copied()).map(|value| KeyAction::Up { value });
        let keys = down.chain(up).fold(KeyActions::new("keys".into()), KeyActions::then);
        Ok(self.client.perform_actions(keys).await?)
    }

    /// Drags an element by its middle, in CSS pixels, in a few moves as a hand does.
    pub(crate) async fn drag(&self, element: Element, x: f64, y: f64) -> Result<()> {
        self.hold(element, x, y).await?;
        self.let_go().await
    }

    /// Drags an element by its middle, in CSS pixels, and holds on to it.
    pub(crate) async fn hold(&self, element: Element, x: f64, y: f64) -> Result<()> {
        const MOVES: u32 = 4;
        let duration = Some(Duration::from_millis(20));
        let part = |whole: f64| whole / f64::from(MOVES);
        let grab = [
            PointerAction::MoveToElement { element, duration, x: 0.0, y: 0.0 },
            PointerAction::Down { button: MOUSE_BUTTON_LEFT },
        ];
        let moves = (0..MOVES).map(|_| PointerAction::MoveBy { duration, x: part(x), y: part(y) });
        let all = grab.into_iter().chain(moves);
        Ok(self.client.perform_actions(all.fold(MouseActions::new("mouse".into()), MouseActions::then)).await?)
    }

    /// Lets go of what is held.
    pub(crate) async fn let_go(&self) -> Result<()> {
        let up = MouseActions::new("mouse".into()).then(PointerAction::Up { button: MOUSE_BUTTON_LEFT });
        Ok(self.client.perform_actions(up).await?)
    }
}
