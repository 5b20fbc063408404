//! Reads the public files: the page, the scripts, the manifest, the rest.

use std::collections::BTreeMap;
use std::path::Path;

use crate::Trouble;

/// The public files, those with placeholders apart.
#[derive(Debug)]
pub(crate) struct Public {
    /// The page every address of the app opens with.
    pub(crate) page: String,
    /// The service worker.
    pub(crate) worker: String,
    /// The script that starts the app.
    pub(crate) boot: String,
    /// The script that asks for code early.
    pub(crate) early: String,
    /// The script that starts the app in a worker.
    pub(crate) beside: String,
    /// What makes the app installable.
    pub(crate) manifest: String,
    plain: BTreeMap<String, Vec<u8>>,
}

impl Public {
    /// The files that are sent as they are, by name.
    pub(crate) fn take_plain(&mut self) -> BTreeMap<String, Vec<u8>> {
        std::mem::take(&mut self.plain)
    }
}

/// Reads every file of the folders, later folders winning.
pub(crate) fn read(folders: &[&Path]) -> Result<Public, Trouble> {
    let mut plain = BTreeMap::new();
    for folder in folders {
        for name in names_in(folder)? {
            let path = folder.join(&name);
            let bytes = std::fs::read(&path).map_err(|why| Trouble::reading(&path, &why))?;
            plain.insert(name, bytes);
        }
    }
    let mut text = |name: &str| {
        let bytes = plain
            .remove(name)
            .ok_or_else(|| Trouble::new(format!("There is no {name} among the public files.")))?;
        String::from_utf8(bytes)
            .map_err(|_| Trouble::new(format!("{name} is not written in UTF-8.")))
    };
    Ok(Public {
        page: text("index.html")?,
        worker: text("worker.js")?,
        boot: text("boot.js")?,
        early: text("early.js")?,
        beside: text("beside.js")?,
        manifest: text("manifest.webmanifest")?,
        plain,
    })
}

/// The names of the files in `folder`, sorted; hidden ones left out.
pub(crate) fn names_in(folder: &Path) -> Result<Vec<String>, Trouble> {
    let failed = |why: std::io::Error| Trouble::reading(folder, &why);
    let mut names = Vec::new();
    for entry in std::fs::read_dir(folder).map_err(failed)? {
        let entry = entry.map_err(failed)?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.starts_with('.') {
            continue;
        }
        if entry.file_type().map_err(failed)?.is_dir() {
            return Err(Trouble::new(format!(
                "{} holds the folder {name}; only files are served.",
                folder.display()
            )));
        }
        names.push(name);
    }
    names.sort();
    Ok(names)
}
