//! How much the engine still says by itself.

use std::fs;
use std::path::{Path, PathBuf};

use proc_macro2::{TokenStream, TokenTree};
use syn::visit::{self, Visit};
use syn::{Attribute, ExprMethodCall, ImplItemFn, ItemFn, ItemMod, LitStr, Macro, parse_file};

use crate::measure::{Figure, Trouble, Workshop};

/// Where words are not said to people: where those of people are recognised, in
/// typed lists and in the names of measures in files from before, and where the
/// page's style sheet is written.
const NOT_SAID: [&str; 3] = [
    "reading/lexicon.rs",
    "recipe/former.rs",
    "draw/pen/sheet.rs",
];

/// A literal of so many words is a sentence, or a part of one.
const FEWEST_WORDS: usize = 3;

/// Counts the texts of three words or more in the engine.
pub(crate) fn figures(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../app/engine/src");
    let mut files = Vec::new();
    sources(&root, &mut files)?;
    files.sort();
    let mut count: u32 = 0;
    for file in files {
        let name = file.strip_prefix(&root).unwrap_or(&file);
        if NOT_SAID.iter().any(|it| name == Path::new(it)) {
            continue;
        }
        let text = fs::read_to_string(&file)
            .map_err(|error| Trouble(format!("{}: {error}", file.display())))?;
        for said in texts(&text).map_err(|error| Trouble(format!("{}: {error}", file.display())))? {
            eprintln!("{}: {said:?}", name.display());
            count = count.saturating_add(1);
        }
    }
    Ok(vec![Figure {
        name: "engine_sentences",
        value: f64::from(count),
        unit: "texts",
        target: Some(0.0),
        how: format!(
            "string literals of {FEWEST_WORDS} words or more in app/engine/src, holes not counted; \
             without attributes and docs, tests, the reasons that `expect` gives, what recognises \
             words of people, and the page's style sheet ({})",
            NOT_SAID.join(", ")
        ),
    }])
}

fn sources(folder: &Path, found: &mut Vec<PathBuf>) -> Result<(), Trouble> {
    let unread = |error| Trouble(format!("{}: {error}", folder.display()));
    for entry in fs::read_dir(folder).map_err(unread)? {
        let path = entry.map_err(unread)?.path();
        if path.is_dir() {
            sources(&path, found)?;
        } else if path.extension().is_some_and(|it| it == "rs") {
            found.push(path);
        }
    }
    Ok(())
}

/// The texts of a source that are long enough.
fn texts(source: &str) -> syn::Result<Vec<String>> {
    let mut found = Literals(Vec::new());
    found.visit_file(&parse_file(source)?);
    let long = found
        .0
        .into_iter()
        .filter(|text| words(text) >= FEWEST_WORDS);
    Ok(long.collect())
}

/// How many words a text has besides its holes.
fn words(text: &str) -> usize {
    let mut outside = String::new();
    let mut depth = 0_u32;
    for letter in text.chars() {
        match letter {
            '{' => depth = depth.saturating_add(1),
            '}' => depth = depth.saturating_sub(1),
            _ if depth == 0 => outside.push(letter),
            _ => {}
        }
    }
    let is_word = |part: &&str| {
        let letters = part.chars().filter(|it| it.is_alphabetic()).count();
        letters > 1 && !part.chars().any(char::is_numeric)
    };
    outside.split_whitespace().filter(is_word).count()
}

/// Collects the text literals of code that runs.
struct Literals(Vec<String>);

impl Literals {
    fn tokens(&mut self, tokens: TokenStream) {
        for token in tokens {
            match token {
                TokenTree::Group(group) => self.tokens(group.stream()),
                TokenTree::Literal(literal) => {
                    if let Ok(text) = syn::parse_str::<LitStr>(&literal.to_string()) {
                        self.0.push(text.value());
                    }
                }
                TokenTree::Ident(_) | TokenTree::Punct(_) => {}
            }
        }
    }
}

/// Whether something is there for tests only.
fn is_test(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|it| {
        let path = it.path();
        let list = it.meta.require_list();
        path.is_ident("test")
            || path.is_ident("cfg") && list.is_ok_and(|list| list.tokens.to_string() == "test")
    })
}

impl<'ast> Visit<'ast> for Literals {
    fn visit_attribute(&mut self, _: &'ast Attribute) {}

    fn visit_item_mod(&mut self, module: &'ast ItemMod) {
        if !is_test(&module.attrs) {
            visit::visit_item_mod(self, module);
        }
    }

    fn visit_item_fn(&mut self, function: &'ast ItemFn) {
        if !is_test(&function.attrs) {
            visit::visit_item_fn(self, function);
        }
    }

    fn visit_impl_item_fn(&mut self, function: &'ast ImplItemFn) {
        if !is_test(&function.attrs) {
            visit::visit_impl_item_fn(self, function);
        }
    }

    fn visit_expr_method_call(&mut self, call: &'ast ExprMethodCall) {
        if call.method == "expect" {
            self.visit_expr(&call.receiver);
        } else {
            visit::visit_expr_method_call(self, call);
        }
    }

    fn visit_lit_str(&mut self, text: &'ast LitStr) {
        self.0.push(text.value());
    }

    fn visit_macro(&mut self, called: &'ast Macro) {
        self.tokens(called.tokens.clone());
    }
}
