//! Takes out of a module what is only needed later, as the app's own marks say.

use std::collections::BTreeMap;
use std::path::Path;

use wasm_split_cli_support::{Options, transform};

use crate::gather::gather;
use crate::slim::slim;
use crate::{Effort, Trouble};

/// What the link script calls the glue, and the glue the link script, until
/// both have names made from their content.
pub(crate) const GLUE: &str = "./app.js";
pub(crate) const LINK: &str = "./link.js";
/// What the link script calls the file of small parts.
pub(crate) const GATHERED: &str = "./gathered.bin";

/// What a module leaves for later.
pub(crate) struct Parts {
    /// The script that fetches the others when they are asked for; the glue
    /// imports it as [`LINK`], where there are others.
    pub(crate) link: String,
    /// The others, by the names under which the link script fetches them.
    pub(crate) modules: Vec<(String, Vec<u8>)>,
    /// Which of them are fetched together, by the names of the app's marks.
    pub(crate) together: BTreeMap<String, Vec<String>>,
}

/// The tag of the language that a part is, told by the name the app gave its
/// mark: `language_de`.
pub(crate) fn language(part: &str) -> Option<&str> {
    part.strip_prefix("./split_language_")?
        .strip_suffix(".wasm")
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
            Effort::Release => slim(&whole).map_err(|why| {
                let name = path.display();
                Trouble::new(format!("The part {name} cannot be written shorter: {why}"))
            })?,
            Effort::Quick => whole,
        };
        modules.push((format!("./{}", name.unwrap_or_default()), part));
    }
    modules.sort();
    let link = String::from_utf8_lossy(&read(&folder.join(LINK))?).into_owned();
    let together = done.prefetch_map.into_iter().map(|(mark, stems)| {
        let mut names: Vec<_> = stems.iter().map(|stem| format!("./{stem}.wasm")).collect();
        names.sort();
        (mark, names)
    });
    let parts = Parts {
        link,
        modules,
        together: together.collect(),
    };
    let parts = match effort {
        Effort::Release => gather(parts)?,
        Effort::Quick => parts,
    };
    Ok((read(&first)?, parts))
}
