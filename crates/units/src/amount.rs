//! The number at the head of a typed text: `1,680`, `54,4`, `32 1/2`, `1/8`, `2.5e3`.

/// What people type, in plain characters: one kind of space, minus, prime, fraction and slash.
pub(crate) fn plain(typed: &str) -> String {
    let mut plain = String::with_capacity(typed.len());
    for letter in typed.trim().chars() {
        match letter {
            letter if letter.is_whitespace() => {
                if !plain.ends_with(' ') {
                    plain.push(' ');
                }
            }
            '−' | '–' | '‐' | '‑' => plain.push('-'),
            '′' | '’' | '‘' | '`' | '´' => plain.push('\''),
            '″' | '”' | '“' => plain.push('"'),
            '⁄' | '∕' => plain.push('/'),
            letter => match fraction_of(letter) {
                Some(fraction) => {
                    if plain.ends_with(|before: char| before.is_ascii_digit()) {
                        plain.push(' ');
                    }
                    plain.push_str(fraction);
                }
                None => plain.push(letter),
            },
        }
    }
    plain.replace("''", "\"")
}

fn fraction_of(letter: char) -> Option<&'static str> {
    Some(match letter {
        '½' => "1/2",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        _ => return None,
    })
}

/// Takes the number off the head of a plain text; gives it and what follows. It may be infinite.
pub(crate) fn amount(text: &str) -> Option<(f64, &str)> {
    if let Some(fraction) = fraction(text) {
        return Some(fraction);
    }
    let (numeral, rest) = text.split_at(numeral_length(text));
    let numeral = without_separators(numeral)?;
    let whole = || numeral.parse::<f64>().ok();
    // A fraction after a whole number: `32 1/2`, `32-1/2`.
    if !numeral.contains('.')
        && let Some((part, rest)) = rest.strip_prefix([' ', '-']).and_then(fraction)
    {
        return if part < 1.0 { Some((whole()? + part, rest)) } else { None };
    }
    let exponent = exponent_length(rest);
    if exponent > 0 {
        let (exponent, rest) = rest.split_at(exponent);
        return Some((format!("{numeral}{exponent}").parse().ok()?, rest));
    }
    Some((whole()?, rest))
}

/// `3/8`, not followed by more of the kind.
fn fraction(text: &str) -> Option<(f64, &str)> {
    let (over, rest) = text.split_at(digits_length(text));
    let rest = rest.strip_prefix('/')?;
    let (under, rest) = rest.split_at(digits_length(rest));
    let (over, under): (f64, f64) = (over.parse().ok()?, under.parse().ok()?);
    let ends = !rest.starts_with(['/', '.', ',']);
    let number = over / under;
    if ends && number.is_finite() { Some((number, rest)) } else { None }
}

fn digits_length(text: &str) -> usize {
    text.bytes().take_while(u8::is_ascii_digit).count()
}

fn exponent_length(text: &str) -> usize {
    let Some(after) = text.strip_prefix(['e', 'E']) else { return 0 };
    let sign = usize::from(after.starts_with(['-', '+']));
    match digits_length(&after[sign..]) {
        0 => 0,
        digits => 1 + sign + digits,
    }
}

/// How far the digits go, with the points, commas and thousands spaces between them.
fn numeral_length(text: &str) -> usize {
    let mut length = 0;
    loop {
        length += digits_length(&text[length..]);
        let rest = &text[length..];
        let Some(after) = rest.strip_prefix(['.', ',', ' ']) else { return length };
        let digits = digits_length(after);
        let goes_on = if rest.starts_with(' ') {
            // A space parts thousands only; `500 1/2` and `500 125/1000` are a number and a fraction.
            length > 0 && digits == 3 && !after[3..].starts_with('/')
        } else {
            digits > 0
        };
        if !goes_on {
            return length;
        }
        length += 1;
    }
}

/// The numeral with a decimal point and nothing else between its digits, or nothing if it is not clear which is which.
///
/// A comma followed by exactly three digits parts thousands, otherwise it is a decimal comma. A leading zero (`0,125`)
/// or other marks between the thousands (`1 680,500`) make it a decimal comma whatever follows.
fn without_separators(numeral: &str) -> Option<String> {
    let commas = numeral.matches(',').count();
    let points = numeral.matches('.').count();
    let last = numeral.rfind(['.', ',']);
    let decimal_at = match (points, commas, last) {
        (0, 0, _) | (_, _, None) => None,
        (0, 1, Some(at)) if !numeral.contains(' ') => {
            let (before, after) = (&numeral[..at], &numeral[at + 1..]);
            (after.len() != 3 || before.is_empty() || before.starts_with('0')).then_some(at)
        }
        (0, _, _) if commas > 1 => None,
        (_, _, at) => at,
    };
    let (whole, decimals) = decimal_at.map_or((numeral, ""), |at| (&numeral[..at], &numeral[at + 1..]));
    let decimal_mark = decimal_at.and_then(|at| numeral[at..].chars().next());
    let mut marks = whole.chars().filter(|mark| !mark.is_ascii_digit());
    let digits = if let Some(mark) = marks.next() {
        let same = Some(mark) != decimal_mark && marks.all(|other| other == mark);
        let mut groups = whole.split(mark);
        let first = groups.next().is_some_and(|first| (1..=3).contains(&first.len()));
        if !(same && first && groups.all(|group| group.len() == 3)) {
            return None;
        }
        whole.replace(mark, "")
    } else {
        whole.to_owned()
    };
    match (digits.is_empty(), decimals.is_empty()) {
        (true, true) => None,
        (true, false) => Some(format!("0.{decimals}")),
        (false, true) => Some(digits),
        (false, false) => Some(format!("{digits}.{decimals}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(typed: &str, expected: Option<(f64, &str)>) {
        let text = plain(typed);
        assert_eq!(amount(&text), expected, "{typed:?}");
    }

    #[test]
    fn points_and_commas_are_told_apart() {
        check("1,680", Some((1680.0, "")));
        check("1,234,567.5", Some((1_234_567.5, "")));
        check("1.680", Some((1.68, "")));
        check("1.680,5", Some((1680.5, "")));
        check("54,4", Some((54.4, "")));
        check("54,4321", Some((54.4321, "")));
        check("0,125", Some((0.125, "")));
        check(",5", Some((0.5, "")));
        check(".5", Some((0.5, "")));
        check("5.", Some((5.0, ".")));
    }

    #[test]
    fn spaces_part_thousands() {
        for typed in ["1 680", "1\u{a0}680", "1\u{202f}680", "1\u{2009}680"] {
            check(typed, Some((1680.0, "")));
        }
        check("1 680,500", Some((1680.5, "")));
        check("12 345 678.25 mm", Some((12_345_678.25, " mm")));
    }

    #[test]
    fn unclear_separators_are_refused() {
        for typed in
            ["1234,567", "1,68,0", "1.2.3", "1.234.567", "1,234 567", "1,23.4", "12,34,567", "", ",", "in", "1 680,5,5"]
        {
            check(typed, None);
        }
    }

    #[test]
    fn fractions_stand_alone_or_after_a_whole_number() {
        check("1/8 in", Some((0.125, " in")));
        check("32 1/2", Some((32.5, "")));
        check("32-1/2 in", Some((32.5, " in")));
        check("32½\"", Some((32.5, "\"")));
        check("½", Some((0.5, "")));
        check("1 500 1/2", Some((1500.5, "")));
        check("500 125/1000", Some((500.125, "")));
        for typed in ["1/0", "32 3/2", "1/2/3", "1/2.5"] {
            assert_ne!(amount(&plain(typed)).map(|(_, rest)| rest), Some(""), "{typed:?}");
        }
    }

    #[test]
    fn exponents_are_read() {
        check("2.5e3 W", Some((2500.0, " W")));
        check("1e-6", Some((1e-6, "")));
        check("1 ea", Some((1.0, " ea")));
        check("1e999", Some((f64::INFINITY, "")));
    }
}
