//! Writes scripts short: without lines that are only for who reads them, and
//! without what they are set in by.

/// The same script. No text in it may go over several lines.
pub(crate) fn short(script: &str) -> String {
    let lines = script.lines().map(str::trim);
    let lines = lines.filter(|line| !line.is_empty() && !line.starts_with("//"));
    lines.flat_map(|line| [line, "\n"]).collect()
}

#[cfg(test)]
mod tests {
    use super::short;

    #[test]
    fn only_what_runs_is_left() {
        let script = "// Why.\nif (yes) {\n  // How.\n  go(); // now\n}\n\nfunction go() {}\n";
        let left = "if (yes) {\ngo(); // now\n}\nfunction go() {}\n";
        assert_eq!(short(script), left);
    }
}
