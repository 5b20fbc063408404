//! The browser's client: scripts of the browser tests that only measure.

use std::ffi::OsStr;
use std::process::{Command, Stdio};

use foldwright_server::Site;
use serde::de::DeserializeOwned;

use crate::measure::{Trouble, Workshop};
use crate::serving::Serving;

/// The script of that name, ready to be run; its packages are installed unless
/// they are there.
pub(crate) fn script(name: &str) -> Result<Command, Trouble> {
    let folder = Workshop::root().join("tests/browser");
    if !folder.join("node_modules").is_dir() {
        let installed = Command::new("npm")
            .args(["ci", "--no-audit", "--no-fund"])
            .current_dir(&folder)
            .stdout(Stdio::null())
            .status()?;
        if !installed.success() {
            return Err(Trouble(String::from(
                "the browser's client cannot be installed; run npm ci in tests/browser",
            )));
        }
    }
    let mut node = Command::new("node");
    node.arg(folder.join(name));
    Ok(node)
}

/// Runs a script on a site while it is served, and reads what it prints.
pub(crate) fn told<T: DeserializeOwned>(name: &str, site: Site) -> Result<T, Trouble> {
    told_with(name, site, &[])
}

/// The same with more to tell the script.
pub(crate) fn told_with<T: DeserializeOwned>(
    name: &str,
    site: Site,
    more: &[&OsStr],
) -> Result<T, Trouble> {
    let serving = Serving::start(site)?;
    let said = script(name)?
        .arg(format!("http://{}/", serving.address))
        .args(more)
        .stderr(Stdio::inherit())
        .output()?
        .stdout;
    serving.stop();
    serde_json::from_slice(&said).map_err(|_| {
        let said = String::from_utf8_lossy(&said);
        Trouble(format!("the browser's client {name} said {said:?}"))
    })
}
