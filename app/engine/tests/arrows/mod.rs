//! Whether the files of a crate lie in layers, each of which uses only those below.

use std::path::{Path, PathBuf};
use std::{fs, io};

/// Which file of a crate uses something above it, and how often any uses another.
/// `upwards` are the folders and single files of `src`, the lowest first.
pub(crate) fn running_up(package: &str, upwards: &[&str]) -> io::Result<(Vec<String>, usize)> {
    let root = Path::new(package).join("src");
    let level = |name: &str| upwards.iter().position(|known| *known == name);
    let mut files = Vec::new();
    sources(&root, &mut files)?;
    let mut wrong = Vec::new();
    let mut arrows = 0;
    for file in files {
        let within = file.strip_prefix(&root).unwrap_or(&file);
        let Some(own) = level(&first_part(within)) else {
            wrong.push(format!("{} has no level", within.display()));
            continue;
        };
        for line in fs::read_to_string(&file)?.lines() {
            let code = line.split("//").next().unwrap_or(line);
            for used in code.split("crate::").skip(1) {
                let name = |letter: char| letter.is_ascii_lowercase() || letter == '_';
                let used = used.split(|letter| !name(letter)).next().unwrap_or(used);
                let Some(other) = level(used) else { continue };
                arrows += 1;
                if other > own {
                    wrong.push(format!("{} uses {used}", within.display()));
                }
            }
        }
    }
    Ok((wrong, arrows))
}

/// The folder a file lies in, or its own name without the ending.
fn first_part(within: &Path) -> String {
    let first = within.iter().next().unwrap_or_default();
    first.to_string_lossy().trim_end_matches(".rs").to_owned()
}

fn sources(folder: &Path, into: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            sources(&path, into)?;
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            into.push(path);
        }
    }
    Ok(())
}
