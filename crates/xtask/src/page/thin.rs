//! What only a person reads, left out of styles and glue.

/// Styles without comments, and with no more white space than separates. Texts in quotes stay as they are.
pub(crate) fn styles(text: &str) -> String {
    let mut made = String::with_capacity(text.len());
    let mut rest = text.chars().peekable();
    let mut quote = None;
    while let Some(letter) = rest.next() {
        if let Some(end) = quote {
            made.push(letter);
            if letter == '\\' {
                made.extend(rest.next());
            } else if letter == end {
                quote = None;
            }
            continue;
        }
        match letter {
            '"' | '\'' => {
                quote = Some(letter);
                made.push(letter);
            }
            '/' if rest.peek() == Some(&'*') => {
                rest.next();
                let mut before = ' ';
                for inside in rest.by_ref() {
                    if before == '*' && inside == '/' {
                        break;
                    }
                    before = inside;
                }
            }
            space if space.is_whitespace() => {
                if !made.is_empty() && !made.ends_with([' ', '{', '}', ';', ',']) {
                    made.push(' ');
                }
            }
            '{' | '}' | ';' | ',' => {
                if made.ends_with(' ') {
                    made.pop();
                }
                made.push(letter);
            }
            other => made.push(other),
        }
    }
    made
}

/// Glue without the comments that document it for an editor, and without indents. What wasm-bindgen writes has no text
/// over several lines.
pub(crate) fn glue(text: &str) -> String {
    let mut made = String::with_capacity(text.len());
    let mut within = false;
    for line in text.lines().map(str::trim) {
        within |= line.starts_with("/**");
        if !within && !line.is_empty() {
            made.push_str(line);
            made.push('\n');
        }
        within &= !line.ends_with("*/");
    }
    made
}

#[cfg(test)]
mod tests {
    use super::{glue, styles};

    #[test]
    fn styles_keep_what_a_browser_reads() {
        let made = styles(
            "/* a; b */\n.a > b , c {\n  width: calc(1px + 2px) ; content: \"/* x  { */\"; }\n\n@media (x) { .d .e { f: g } }",
        );
        assert_eq!(made, ".a > b,c{width: calc(1px + 2px);content: \"/* x  { */\";}@media (x){.d .e{f: g}}");
        assert_eq!(styles("a { b: url('c\\'  d') }"), "a{b: url('c\\'  d')}");
    }

    #[test]
    fn glue_keeps_every_line_that_does_something() {
        let made = glue("/**\n * @returns {number}\n */\nfunction a() {\n    return 1; // one\n}\n\n/** b */\nc();\n");
        assert_eq!(made, "function a() {\nreturn 1; // one\n}\nc();\n");
    }
}
