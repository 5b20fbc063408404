//! Placeholders such as `{{style.css}}` in the page, the scripts and styles.

use std::collections::BTreeMap;

use crate::Trouble;

/// What each placeholder stands for.
#[derive(Clone, Debug, Default)]
pub(crate) struct Names(BTreeMap<String, String>);

impl Names {
    pub(crate) fn set(&mut self, name: &str, value: String) {
        self.0.insert(name.to_owned(), value);
    }

    /// `text`, read from the file called `file`, with every placeholder
    /// replaced.
    pub(crate) fn fill(&self, file: &str, text: &str) -> Result<String, Trouble> {
        let mut filled = String::with_capacity(text.len());
        let mut rest = text;
        while let Some((before, after)) = rest.split_once("{{") {
            let (name, after) = after.split_once("}}").ok_or_else(|| {
                Trouble::new(format!("{file} opens a placeholder and does not close it."))
            })?;
            let value = self.0.get(name).ok_or_else(|| {
                let known: Vec<&str> = self.0.keys().map(String::as_str).collect();
                Trouble::new(format!(
                    "{file} asks for {{{{{name}}}}}, which is not there yet. Known: {}.",
                    known.join(", ")
                ))
            })?;
            filled.push_str(before);
            filled.push_str(value);
            rest = after;
        }
        filled.push_str(rest);
        Ok(filled)
    }
}

#[cfg(test)]
mod tests {
    use super::Names;

    #[test]
    fn placeholders_are_replaced_everywhere() {
        let mut names = Names::default();
        names.set("a.css", String::from("/assets/a-1.css"));
        let filled = names.fill("page", "<{{a.css}}> and {{a.css}}").unwrap();
        assert_eq!(filled, "</assets/a-1.css> and /assets/a-1.css");
    }

    #[test]
    fn an_unknown_placeholder_is_named_with_its_file() {
        let trouble = Names::default().fill("page", "{{b.css}}").unwrap_err();
        assert!(trouble.to_string().starts_with("page asks for {{b.css}}"));
    }

    #[test]
    fn an_open_placeholder_is_refused() {
        assert!(Names::default().fill("page", "{{b.css").is_err());
    }
}
