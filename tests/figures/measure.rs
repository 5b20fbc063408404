//! What a figure is, and what measuring several of them shares.

use std::fmt;
use std::path::{Path, PathBuf};

use foldwright_server::Site;

use crate::{binary, bundles};

/// One measured figure.
#[derive(Debug)]
pub(crate) struct Figure {
    pub(crate) name: &'static str,
    pub(crate) value: f64,
    pub(crate) unit: &'static str,
    /// At most this, where there is a target.
    pub(crate) target: Option<f64>,
    pub(crate) how: String,
}

impl Figure {
    /// Prints it for programs on standard output, for people on the other.
    pub(crate) fn print(&self) {
        let rounded = (self.value * 1000.0).round() / 1000.0;
        let line = serde_json::json!({
            "figure": self.name,
            "value": rounded,
            "unit": self.unit,
            "target": self.target,
            "how": self.how,
        });
        println!("{line}");
        let verdict = match self.target {
            Some(target) if self.value <= target => format!("target {target}, met"),
            Some(target) => format!("target {target}, NOT met"),
            None => String::from("no target"),
        };
        eprintln!("  {}: {rounded} {} ({verdict})", self.name, self.unit);
    }
}

/// Why something could not be measured.
#[derive(Debug)]
pub(crate) struct Trouble(pub(crate) String);

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl From<std::io::Error> for Trouble {
    fn from(why: std::io::Error) -> Self {
        Self(why.to_string())
    }
}

/// What is built once and measured several times.
#[derive(Debug, Default)]
pub(crate) struct Workshop {
    server: Option<PathBuf>,
    empty: Option<Site>,
}

impl Workshop {
    /// The folder the repository is in.
    pub(crate) fn root() -> &'static Path {
        let tests = Path::new(env!("CARGO_MANIFEST_DIR"));
        tests.parent().unwrap_or(tests)
    }

    /// The release server's binary, built if need be.
    pub(crate) fn server(&mut self) -> Result<PathBuf, Trouble> {
        match &self.server {
            Some(path) => Ok(path.clone()),
            None => Ok(self.server.insert(binary::build()?).clone()),
        }
    }

    /// The empty app, bundled as the app is.
    pub(crate) fn empty(&mut self) -> Result<Site, Trouble> {
        let server = self.server()?;
        match &self.empty {
            Some(site) => Ok(site.clone()),
            None => Ok(self.empty.insert(bundles::empty(&server)?).clone()),
        }
    }
}

/// The middle of some measurements.
pub(crate) fn median(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied()
}
