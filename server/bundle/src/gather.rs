//! Puts small parts of a split module into one file, since each file that a page
//! asks for costs a way to the server and back, however small it is.

use crate::Trouble;
use crate::split::{GATHERED, Parts};

/// Parts with fewer bytes are gathered. Our own bound: all that are smaller
/// together are about as large as one that is not.
const SMALL: usize = 8_000;

/// What the link script gets to take a part out of the file, once it is here.
const TAKER: &str = r#"let gathered;
function taken(from, to) {
    gathered ??= fetch(new URL("{GATHERED}", import.meta.url)).then((answer) => {
        if (!answer.ok) throw new Error(`${answer.url}: ${answer.status}`);
        return answer.arrayBuffer();
    });
    const coming = gathered;
    coming.catch(() => {
        if (gathered === coming) gathered = undefined;
    });
    return async (imports) => WebAssembly.instantiate((await coming).slice(from, to), imports);
}
"#;

/// Gathers the small parts in one that is called [`GATHERED`].
pub(crate) fn gather(parts: Parts) -> Result<Parts, Trouble> {
    let Parts {
        mut link,
        modules,
        mut together,
    } = parts;
    let (small, mut modules): (Vec<_>, Vec<_>) = modules
        .into_iter()
        .partition(|(_, part)| part.len() < SMALL);
    if small.is_empty() {
        return Ok(Parts {
            link,
            modules,
            together,
        });
    }
    let mut gathered = Vec::new();
    for (name, part) in small {
        let from = gathered.len();
        gathered.extend(part);
        let taken = format!("() => taken({from}, {})", gathered.len());
        link = replaced(&link, &fetching(&name), &taken)?;
        for names in together.values_mut().filter(|names| names.contains(&name)) {
            names.retain(|other| *other != name && other != GATHERED);
            names.push(GATHERED.to_owned());
        }
    }
    link.push_str(&TAKER.replace("{GATHERED}", GATHERED));
    modules.push((GATHERED.to_owned(), gathered));
    Ok(Parts {
        link,
        modules,
        together,
    })
}

/// How the link script fetches a part.
fn fetching(name: &str) -> String {
    format!(
        "() => {{
    const src = fetch(new URL({name:?}, import.meta.url));
    src.catch(() => {{}});
    return async (imports) => (WebAssembly.instantiateStreaming(src, imports));
}}
"
    )
}

fn replaced(link: &str, old: &str, new: &str) -> Result<String, Trouble> {
    match link.split_once(old) {
        Some((before, after)) => Ok(format!("{before}{new}{after}")),
        None => Err(Trouble::new(format!(
            "The link script does not fetch a part in the way that is known: {old}"
        ))),
    }
}

#[cfg(test)]
mod tests {
    use super::{SMALL, fetching, gather};
    use crate::split::{GATHERED, Parts};

    fn parts(sizes: [usize; 3]) -> Parts {
        let names = ["./a.wasm", "./b.wasm", "./c.wasm"].map(str::to_owned);
        Parts {
            link: names.iter().map(|name| fetching(name)).collect(),
            modules: names
                .iter()
                .cloned()
                .zip(sizes.map(|size| vec![7; size]))
                .collect(),
            together: [("page".to_owned(), names.to_vec())].into(),
        }
    }

    #[test]
    fn small_parts_come_in_one_file() {
        let parts = gather(parts([3, SMALL, 5])).unwrap();
        let sizes = parts
            .modules
            .iter()
            .map(|(name, part)| (name.as_str(), part.len()));
        assert_eq!(
            sizes.collect::<Vec<_>>(),
            [("./b.wasm", SMALL), (GATHERED, 8)]
        );
        assert_eq!(parts.together["page"], ["./b.wasm", GATHERED]);
        assert!(parts.link.contains("() => taken(0, 3)"));
        assert!(parts.link.contains("() => taken(3, 8)"));
        assert!(parts.link.contains(&fetching("./b.wasm")));
    }

    #[test]
    fn a_link_script_of_another_make_is_refused() {
        let mut parts = parts([3, SMALL, 5]);
        parts.link.clear();
        assert!(gather(parts).is_err());
    }
}
