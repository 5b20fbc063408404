//! Takes out of a module what is only needed later, as the app's own marks say.

use std::path::Path;

use wasm_encoder::{Module, RawSection};
use wasm_split_cli_support::{Options, transform};
use wasmparser::{Parser, Payload};

use crate::{Effort, Trouble};

/// What the link script calls the glue, and the glue the link script, until
/// both have names made from their content.
pub(crate) const GLUE: &str = "./app.js";
pub(crate) const LINK: &str = "./link.js";

/// What a module leaves for later.
pub(crate) struct Parts {
    /// The script that fetches the others when they are asked for; the glue
    /// imports it as [`LINK`], where there are others.
    pub(crate) link: String,
    /// The others, by the names under which the link script fetches them.
    pub(crate) modules: Vec<(String, Vec<u8>)>,
}

/// Splits a module into what starts the app and what is left for later.
/// `folder` is where the work is done.
pub(crate) fn split(
    module: &[u8],
    folder: &Path,
    effort: Effort,
) -> Result<(Vec<u8>, Parts), Trouble> {
    // What an earlier build left here is not of this one.
    let _ = std::fs::remove_dir_all(folder);
    let first = folder.join("first.wasm");
    let mut options = Options::new(module);
    options.output_dir = folder;
    options.main_out_path = &first;
    options.link_name = LINK;
    options.main_module = GLUE;
    let done = transform(options)
        .map_err(|why| Trouble::new(format!("The module cannot be split: {why:#}")))?;
    let read = |path: &Path| {
        std::fs::read(path)
            .map_err(|why| Trouble::new(format!("{} cannot be read: {why}", path.display())))
    };
    let mut modules = Vec::new();
    for path in &done.split_modules {
        let name = path.file_name().map(|name| name.to_string_lossy());
        let whole = read(path)?;
        let part = match effort {
            Effort::Release => without_notes(&whole)?,
            Effort::Quick => whole,
        };
        modules.push((format!("./{}", name.unwrap_or_default()), part));
    }
    modules.sort();
    let link = String::from_utf8_lossy(&read(&folder.join(LINK))?).into_owned();
    Ok((read(&first)?, Parts { link, modules }))
}

/// A module without its custom sections, such as the names of functions.
fn without_notes(module: &[u8]) -> Result<Vec<u8>, Trouble> {
    let unread = |why| Trouble::new(format!("A part of the split module cannot be read: {why}"));
    let mut kept = Module::new();
    for payload in Parser::new(0).parse_all(module) {
        let payload = payload.map_err(unread)?;
        if matches!(payload, Payload::CustomSection(_)) {
            continue;
        }
        if let Some((id, range)) = payload.as_section() {
            let place = |at: u64| usize::try_from(at).unwrap_or(usize::MAX);
            let data = module.get(place(range.start)..place(range.end));
            let data = data.unwrap_or_default();
            kept.section(&RawSection { id, data });
        }
    }
    Ok(kept.finish())
}
