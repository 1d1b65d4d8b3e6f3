//! Text that is safe on a terminal.

/// The text without control characters other than line ends: a name from a file must not steer the reader's terminal.
#[must_use]
pub fn plain(text: &str) -> String {
    text.chars().filter(|&letter| letter == '\n' || !steers(letter)).collect()
}

/// Control characters, and the marks that turn the direction of writing.
fn steers(letter: char) -> bool {
    letter.is_control() || matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn a_name_cannot_steer_the_terminal() {
        assert_eq!(plain("a\u{1b}[31mred\u{7}\r\nb\u{202e}c"), "a[31mred\nbc");
    }

    #[test]
    fn units_and_signs_stay() {
        let text = "1\u{202f}680\u{a0}mm ≥ −40 °C";
        assert_eq!(plain(text), text);
    }
}
