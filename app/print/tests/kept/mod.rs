//! Files as programs of others read them: `qpdf`, which checks the file itself, and
//! Poppler's `pdftotext` and `pdfinfo`, which say what stands where.

use std::path::{Path, PathBuf};
use std::process::Command;

use foldwright_print::Paper;
use tempfile::TempDir;

/// What a program prints on being called with these.
pub(crate) fn asked(program: &str, arguments: &[&str], file: &Path) -> String {
    let mut command = Command::new(program);
    // Poppler takes its last argument for what it writes to.
    command.args(arguments).arg(file);
    if program == "pdftotext" {
        command.arg("-");
    }
    let done = command.output();
    let done = done.unwrap_or_else(|why| panic!("{program} is needed, see tests/run: {why}"));
    let said = String::from_utf8_lossy(&done.stderr);
    assert!(done.status.success(), "{program}: {said}");
    String::from_utf8(done.stdout).expect("it prints UTF-8")
}

/// A PDF in a folder that goes with it.
pub(crate) struct Kept {
    _folder: TempDir,
    /// Where it is.
    pub(crate) file: PathBuf,
}

impl Kept {
    pub(crate) fn of(pdf: &[u8]) -> Self {
        let folder = TempDir::new().expect("a folder");
        let file = folder.path().join("sheet.pdf");
        std::fs::write(&file, pdf).expect("a file");
        Self {
            _folder: folder,
            file,
        }
    }

    /// Its text without the breaks of its lines.
    pub(crate) fn text(&self) -> String {
        let text = asked("pdftotext", &["-raw"], &self.file);
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// Fails where the file is damaged, where a word does not lie within the white
    /// edge of its page, in millimetres, or where pages are not of the paper; how many
    /// pages it has.
    pub(crate) fn is_whole(&self, paper: Paper, edge: f64) -> usize {
        let checked = asked("qpdf", &["--check"], &self.file);
        assert!(
            checked.contains("No syntax or stream encoding errors"),
            "{checked}"
        );
        let boxes = asked("pdftotext", &["-bbox"], &self.file);
        let [width, height] = paper.size().map(f64::from);
        let number = |line: &str, name: &str| -> f64 {
            let (_, rest) = line.split_once(&format!("{name}=\"")).expect("a number");
            let (number, _) = rest.split_once('"').expect("its end");
            number.parse().expect("a number")
        };
        let (mut pages, mut words) = (0, 0);
        for line in boxes.lines() {
            if line.contains("<page ") {
                pages += 1;
                assert!((number(line, "width") - width).abs() < 0.01, "{line}");
                assert!((number(line, "height") - height).abs() < 0.01, "{line}");
            }
            if line.contains("<word ") {
                words += 1;
                let edge = edge / 25.4 * 72.0;
                assert!(number(line, "xMin") >= edge, "{line}");
                assert!(number(line, "xMax") <= width - edge, "{line}");
                assert!(number(line, "yMin") >= edge - 6.0, "{line}");
                assert!(number(line, "yMax") <= height - edge + 6.0, "{line}");
            }
        }
        assert!(words > 50, "only {words} words");
        pages
    }
}
