//! Keeps the texts of a function together.
//!
//! A sentence that is said with `format!` leaves in the compiled code where its
//! text is, how long that is, how each hole is written out and what is freed
//! afterwards. Together that is as much as the text itself. [`macro@gathered`] puts
//! all texts of a function behind each other, in the order in which they are
//! written there, and leaves of a sentence only its number and what goes into its
//! holes. What is said stays the same to the letter.

use proc_macro::{Delimiter, Group, Ident, Literal, Punct, Spacing, Span, TokenStream, TokenTree};

/// Gathers the texts of a function, or of a constant with closures in it.
///
/// These are gathered: `format!` with holes that have no format of their own,
/// `"…".to_owned()`, `Told::new`, and a text that is all of an arm or a block. In a
/// hole stands whatever is a `crate::said::Filling`; a text is taken by value and not
/// by reference. All other texts stay where they are.
#[proc_macro_attribute]
pub fn gathered(options: TokenStream, item: TokenStream) -> TokenStream {
    if let Some(option) = options.into_iter().next() {
        return error(option.span(), "there is nothing to choose");
    }
    let mut texts = Texts::default();
    let mut item: Vec<_> = walk(item, &mut texts).into_iter().collect();
    let kept = texts.kept();
    match item.last() {
        Some(TokenTree::Group(body)) if body.delimiter() == Delimiter::Brace => {
            let inside = kept.into_iter().chain(body.stream());
            let body = Group::new(Delimiter::Brace, inside.collect());
            item.pop();
            item.push(body.into());
            item.into_iter().collect()
        }
        _ => kept.into_iter().chain(item).collect(),
    }
}

/// The texts of a function, as they are written between quotation marks.
#[derive(Default)]
struct Texts(Vec<String>);

impl Texts {
    /// All of them, each closed with a null character.
    fn kept(&self) -> TokenStream {
        let mut all = self.0.join("\\0");
        all.push_str("\\0");
        parsed(&format!("static GATHERED: &str = \"{all}\";"))
    }
}

/// Sentences that follow each other, with what fills their holes.
#[derive(Default)]
struct Sentences {
    texts: Vec<String>,
    fillings: Vec<TokenStream>,
}

/// Whether tokens are a literal, or a `format!`.
fn is_sentence(tokens: &[TokenTree]) -> bool {
    match tokens {
        [literal] => written(literal).is_some(),
        [
            TokenTree::Ident(name),
            TokenTree::Punct(mark),
            TokenTree::Group(_),
        ] => name.to_string() == "format" && mark.as_char() == '!',
        _ => false,
    }
}

impl Sentences {
    /// Adds a literal, or what `format!` is given.
    fn read(&mut self, tokens: &[TokenTree], texts: &mut Texts) -> Result<(), TokenStream> {
        match tokens {
            [.., TokenTree::Group(given)] => self.formatted(given, texts),
            [.., literal] => {
                self.texts.extend(written(literal));
                Ok(())
            }
            [] => Ok(()),
        }
    }

    fn formatted(&mut self, given: &Group, texts: &mut Texts) -> Result<(), TokenStream> {
        let mut arguments = arguments(given.stream()).into_iter();
        let template = arguments.next().unwrap_or_default();
        let [literal] = template.as_slice() else {
            return Err(error(given.span(), "a text with its holes comes first"));
        };
        let failed = |what| Err(error(literal.span(), what));
        let Some(written) = written(literal) else {
            return failed("a text with its holes comes first");
        };
        let mut names: Vec<(&str, usize)> = Vec::new();
        let mut text = String::new();
        let mut rest = written.as_str();
        while let Some((before, from)) = rest.split_once('{') {
            let Some((hole, after)) = from.split_once('}') else {
                return failed("a hole is not closed");
            };
            text.push_str(before);
            rest = after;
            if before.ends_with("\\u") {
                // The number of a character, and no hole.
                text.push('{');
                text.push_str(hole);
                text.push('}');
                continue;
            }
            let known = names.iter().find(|(name, _)| *name == hole);
            let number = match known {
                Some((_, number)) => *number,
                None => self.fillings.len(),
            };
            if hole.is_empty() {
                let Some(argument) = arguments.next() else {
                    return failed("there are more holes than what fills them");
                };
                self.fillings
                    .push(walk(argument.into_iter().collect(), texts));
            } else if !hole.chars().all(|it| it.is_alphanumeric() || it == '_') {
                return failed("a hole has no format here");
            } else if known.is_none() {
                let mut filling = parsed("&");
                filling.extend([TokenTree::from(Ident::new(hole, literal.span()))]);
                self.fillings.push(filling);
                names.push((hole, number));
            }
            if number >= MOST_HOLES {
                return failed("there are too many holes");
            }
            text.push_str(&hole_of(number));
        }
        text.push_str(rest);
        if arguments.next().is_some() {
            return failed("there is no hole for all of this");
        }
        self.texts.push(text);
        Ok(())
    }

    /// The call that says them.
    fn said_by(self, how: &str, texts: &mut Texts) -> TokenStream {
        let mut given = parsed("&GATHERED,");
        let mut fillings = TokenStream::new();
        for filling in self.fillings {
            fillings.extend(parsed("crate::said::Filling::words"));
            fillings.extend([
                TokenTree::from(Group::new(Delimiter::Parenthesis, filling)),
                Punct::new(',', Spacing::Alone).into(),
            ]);
        }
        given.extend([
            TokenTree::from(Literal::usize_unsuffixed(texts.0.len())),
            Punct::new(',', Spacing::Alone).into(),
            Group::new(Delimiter::Bracket, fillings).into(),
        ]);
        texts.0.extend(self.texts);
        let mut call = parsed(&format!("crate::said::{how}"));
        call.extend([TokenTree::from(Group::new(Delimiter::Parenthesis, given))]);
        call
    }
}

/// Holes are the control characters after the null character, before those that
/// texts have in them.
const MOST_HOLES: usize = 8;

/// How the hole is written that is filled by what has this number.
fn hole_of(number: usize) -> String {
    format!("\\x{:02x}", number + 1)
}

/// What is between the quotation marks of a text, as it is written.
fn written(literal: &TokenTree) -> Option<String> {
    let TokenTree::Literal(literal) = literal else {
        return None;
    };
    let whole = literal.to_string();
    let inside = whole.strip_prefix('"')?.strip_suffix('"')?;
    Some(inside.to_owned())
}

/// What stands between commas.
fn arguments(stream: TokenStream) -> Vec<Vec<TokenTree>> {
    let tokens: Vec<_> = stream.into_iter().collect();
    let is_comma = |it: &TokenTree| matches!(it, TokenTree::Punct(it) if it.as_char() == ',');
    let arguments = tokens.split(is_comma).map(<[TokenTree]>::to_vec);
    let mut arguments: Vec<_> = arguments.collect();
    if arguments.last().is_some_and(Vec::is_empty) {
        arguments.pop();
    }
    arguments
}

/// Takes the texts out of some tokens.
fn walk(stream: TokenStream, texts: &mut Texts) -> TokenStream {
    let tokens: Vec<_> = stream.into_iter().collect();
    let mut walked = TokenStream::new();
    let mut rest = tokens.as_slice();
    while let [first, after @ ..] = rest {
        let before = &tokens[..tokens.len() - rest.len()];
        let (said, left) = match rest {
            [literal, ..] if is_arm(before, literal, after) => (alone(literal, texts), after),
            [_, _, TokenTree::Group(_), left @ ..] if is_sentence(&rest[..3]) => {
                (said(&rest[..3], texts), left)
            }
            [
                literal,
                TokenTree::Punct(dot),
                TokenTree::Ident(owned),
                TokenTree::Group(_),
                left @ ..,
            ] if dot.as_char() == '.'
                && owned.to_string() == "to_owned"
                && written(literal).is_some() =>
            {
                (said(&rest[..1], texts), left)
            }
            [
                TokenTree::Ident(told),
                TokenTree::Punct(_),
                TokenTree::Punct(_),
                TokenTree::Ident(new),
                TokenTree::Group(given),
                left @ ..,
            ] if told.to_string() == "Told" && new.to_string() == "new" => {
                (problem(&rest[..4], given, texts), left)
            }
            [TokenTree::Group(group), left @ ..] => {
                let inside: Vec<_> = group.stream().into_iter().collect();
                let inside = match inside.as_slice() {
                    [literal] if is_block(group, literal) => alone(literal, texts),
                    _ => walk(group.stream(), texts),
                };
                let mut inside = Group::new(group.delimiter(), inside);
                inside.set_span(group.span());
                (TokenTree::from(inside).into(), left)
            }
            _ => (first.clone().into(), after),
        };
        walked.extend(said);
        rest = left;
    }
    walked
}

/// Whether a text is what an arm of a match comes to.
fn is_arm(before: &[TokenTree], literal: &TokenTree, after: &[TokenTree]) -> bool {
    let is =
        |token: &TokenTree, mark| matches!(token, TokenTree::Punct(it) if it.as_char() == mark);
    let begins = matches!(before, [.., equals, above] if is(equals, '=') && is(above, '>'));
    let ends = after.first().is_none_or(|token| is(token, ','));
    begins && ends && written(literal).is_some()
}

/// Whether a text is what a block comes to.
fn is_block(group: &Group, literal: &TokenTree) -> bool {
    group.delimiter() == Delimiter::Brace && written(literal).is_some()
}

/// A text as it stands.
fn alone(literal: &TokenTree, texts: &mut Texts) -> TokenStream {
    let number = texts.0.len();
    texts.0.extend(written(literal));
    parsed(&format!("crate::said::text(&GATHERED, {number})"))
}

/// One sentence.
fn said(sentence: &[TokenTree], texts: &mut Texts) -> TokenStream {
    let mut all = Sentences::default();
    match all.read(sentence, texts) {
        Ok(()) => all.said_by("said", texts),
        Err(error) => error,
    }
}

/// What is wrong, why, and what to do: `Told::new`, which `new` is, with what it is
/// given.
fn problem(new: &[TokenTree], given: &Group, texts: &mut Texts) -> TokenStream {
    let arguments = arguments(given.stream());
    if arguments.iter().all(|argument| is_sentence(argument)) {
        let mut all = Sentences::default();
        for argument in &arguments {
            if let Err(error) = all.read(argument, texts) {
                return error;
            }
        }
        return all.said_by("told", texts);
    }
    let mut inside = TokenStream::new();
    for argument in arguments {
        inside.extend(if is_sentence(&argument) {
            said(&argument, texts)
        } else {
            walk(argument.into_iter().collect(), texts)
        });
        inside.extend([TokenTree::from(Punct::new(',', Spacing::Alone))]);
    }
    let mut all: TokenStream = new.iter().cloned().collect();
    let mut inside = Group::new(given.delimiter(), inside);
    inside.set_span(given.span());
    all.extend([TokenTree::from(inside)]);
    all
}

#[expect(
    clippy::expect_used,
    reason = "what is parsed is written here or was read before"
)]
fn parsed(code: &str) -> TokenStream {
    code.parse()
        .expect("a text is a literal and the rest is code")
}

fn error(at: Span, what: &str) -> TokenStream {
    let said = parsed(&format!("::core::compile_error! {{ {what:?} }}"));
    let said = said.into_iter().map(|mut token| {
        token.set_span(at);
        token
    });
    said.collect()
}
