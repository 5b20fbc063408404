//! Joins the style sheets and leaves out what only people read.

use std::path::Path;

use crate::Trouble;
use crate::public::names_in;

/// Every style sheet of `folder`, in the order of their names.
pub(crate) fn joined(folder: &Path) -> Result<String, Trouble> {
    let mut all = String::new();
    for name in names_in(folder)?.iter().filter(|name| {
        Path::new(name)
            .extension()
            .is_some_and(|ending| ending == "css")
    }) {
        let path = folder.join(name);
        let text = std::fs::read_to_string(&path).map_err(|why| Trouble::reading(&path, &why))?;
        all.push_str(&tightened(&text));
        all.push('\n');
    }
    Ok(all)
}

/// `css` without comments and with each run of white space made one space.
/// Strings stay as they are.
fn tightened(css: &str) -> String {
    let mut out = String::with_capacity(css.len());
    let mut rest = css.chars().peekable();
    while let Some(c) = rest.next() {
        match c {
            '/' if rest.peek() == Some(&'*') => {
                rest.next();
                let mut last = ' ';
                for c in rest.by_ref() {
                    if last == '*' && c == '/' {
                        break;
                    }
                    last = c;
                }
                // A comment parts two words just as a space does.
                push_space(&mut out);
            }
            '"' | '\'' => {
                out.push(c);
                let mut escaped = false;
                for inner in rest.by_ref() {
                    out.push(inner);
                    if inner == c && !escaped {
                        break;
                    }
                    escaped = inner == '\\' && !escaped;
                }
            }
            c if c.is_ascii_whitespace() => push_space(&mut out),
            c => out.push(c),
        }
    }
    out.trim().to_owned()
}

fn push_space(out: &mut String) {
    if !out.ends_with([' ', '{', '}', ';']) {
        out.push(' ');
    }
}

#[cfg(test)]
mod tests {
    use super::tightened;

    #[test]
    fn comments_and_spare_space_go() {
        assert_eq!(
            tightened("/* top */\na {\n  color: red; /* why */\n}\n\nb   c { margin: 0 1px }\n"),
            "a {color: red;}b c {margin: 0 1px }"
        );
    }

    #[test]
    fn strings_stay_as_they_are() {
        let css = r#"a::before {content: "/* \"  kept */  ";}"#;
        assert_eq!(tightened(css), css);
    }

    #[test]
    fn a_comment_parts_words() {
        assert_eq!(tightened("a/**/b{}"), "a b{}");
    }
}
