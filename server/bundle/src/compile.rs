//! Compiles the app for the browser.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::Value;
use wasm_bindgen_cli_support::Bindgen;

use crate::split::{Parts, split};
use crate::{Effort, Order, Trouble};

const TARGET: &str = "wasm32-unknown-unknown";

/// The app as two files: the module and the script that ties it to the
/// browser.
pub(crate) struct App {
    pub(crate) glue: String,
    pub(crate) wasm: Vec<u8>,
    /// Scripts that crates bring along, by the name the glue imports them by.
    pub(crate) snippets: Vec<(String, String)>,
    /// What the module leaves for later.
    pub(crate) parts: Parts,
}

/// Compiles the app that `order` asks for.
pub(crate) fn app(order: &Order<'_>) -> Result<App, Trouble> {
    add_target()?;
    bound(&compiled(order)?, order)
}

/// Adds the browser's target to the toolchain unless it is there.
fn add_target() -> Result<(), Trouble> {
    let print = Command::new("rustc")
        .args(["--print", "target-libdir", "--target", TARGET])
        .output()
        .map_err(|why| Trouble::new(format!("rustc cannot be started: {why}")))?;
    let folder = String::from_utf8_lossy(&print.stdout);
    if print.status.success() && Path::new(folder.trim()).is_dir() {
        return Ok(());
    }
    let added = Command::new("rustup")
        .args(["target", "add", TARGET])
        .stdout(Stdio::null())
        .status();
    match added {
        Ok(status) if status.success() => Ok(()),
        _ => Err(Trouble::new(format!(
            "The compiler cannot build for the browser yet, and adding that failed. Connect to \
             the internet and run: rustup target add {TARGET}"
        ))),
    }
}

/// Runs cargo and returns where the module is.
fn compiled(order: &Order<'_>) -> Result<PathBuf, Trouble> {
    let manifest = order.app.join("Cargo.toml");
    let profile = match order.effort {
        Effort::Release => "wasm-release",
        Effort::Quick => "wasm-dev",
    };
    let mut cargo = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    forget_outer_build(&mut cargo);
    let output = cargo
        .args(["build", "--locked", "--bins", "--features", "csr"])
        .args(["--target", TARGET, "--profile", profile])
        .arg("--manifest-path")
        .arg(&manifest)
        .arg("--target-dir")
        .arg(order.target)
        .arg("--message-format=json-render-diagnostics")
        .env("CARGO_ENCODED_RUSTFLAGS", flags())
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output()
        .map_err(|why| Trouble::new(format!("cargo cannot be started: {why}")))?;
    if !output.status.success() {
        return Err(Trouble::new(format!(
            "{} does not compile for the browser; the messages above say why.",
            manifest.display()
        )));
    }
    let mut modules = String::from_utf8_lossy(&output.stdout)
        .lines()
        .filter_map(|line| serde_json::from_str::<Value>(line).ok())
        .filter_map(|message| message.get("executable")?.as_str().map(PathBuf::from))
        .collect::<Vec<_>>();
    match (modules.pop(), modules.is_empty()) {
        (Some(module), true) => Ok(module),
        _ => Err(Trouble::new(format!(
            "{} should describe one binary, the app.",
            manifest.display()
        ))),
    }
}

/// Takes away what a surrounding cargo says about its own build. Settings a
/// person made, such as proxies and registries, stay.
fn forget_outer_build(cargo: &mut Command) {
    const NAMES: [&str; 14] = [
        "CARGO_BUILD_RUSTFLAGS",
        "CARGO_BUILD_TARGET",
        "CARGO_ENCODED_RUSTFLAGS",
        "CARGO_TARGET_DIR",
        "CLIPPY_ARGS",
        "DEBUG",
        "HOST",
        "OPT_LEVEL",
        "OUT_DIR",
        "PROFILE",
        "RUSTC",
        "RUSTC_WORKSPACE_WRAPPER",
        "RUSTFLAGS",
        "TARGET",
    ];
    const STARTS: [&str; 5] = [
        "CARGO_BIN_",
        "CARGO_CFG_",
        "CARGO_FEATURE_",
        "CARGO_MANIFEST_",
        "CARGO_PKG_",
    ];
    for (name, _) in std::env::vars_os() {
        let Some(text) = name.to_str() else { continue };
        if NAMES.contains(&text) || STARTS.iter().any(|start| text.starts_with(start)) {
            cargo.env_remove(&name);
        }
    }
}

/// Flags of the compiler, each after the other's separator as cargo wants it.
fn flags() -> String {
    let mut flags = Vec::new();
    // Nobody's home folder belongs in what is sent to the world.
    for (folder, name) in [
        (std::env::var_os("CARGO_HOME"), "cargo"),
        (std::env::var_os("HOME"), "home"),
    ] {
        if let Some(folder) = folder.as_deref().and_then(std::ffi::OsStr::to_str) {
            flags.push(format!("--remap-path-prefix={folder}={name}"));
        }
    }
    // Components of one type are much smaller and compile much faster.
    flags.push(String::from("--cfg=erase_components"));
    // What is split later is found by where it is used.
    flags.push(String::from("-Clink-args=--emit-relocs"));
    flags.join("\u{1f}")
}

/// Ties the module to the browser.
fn bound(module: &Path, order: &Order<'_>) -> Result<App, Trouble> {
    let failed = |what: &dyn std::fmt::Display| {
        Trouble::new(format!(
            "{} cannot be made ready for the browser: {what}",
            module.display()
        ))
    };
    let whole = std::fs::read(module).map_err(|why| failed(&why))?;
    let (first, parts) = split(&whole, &order.target.join("parts"), order.effort)?;
    let mut bindgen = Bindgen::new();
    bindgen
        .input_bytes("app", first)
        .out_name("app")
        .typescript(false)
        .omit_default_module_path(true)
        // The parts are linked by what the linker exports.
        .keep_lld_exports(true)
        .remove_name_section(order.effort == Effort::Release)
        .remove_producers_section(true);
    let mut output = bindgen
        .web(true)
        .and_then(Bindgen::generate_output)
        .map_err(|why| failed(&format!("{why:#}")))?;
    if !output.local_modules().is_empty() {
        return Err(failed(
            &"a crate brings a module of its own, which is not bundled",
        ));
    }
    let snippets = output
        .snippets()
        .iter()
        .flat_map(|(owner, scripts)| {
            scripts.iter().enumerate().map(move |(number, script)| {
                (
                    format!("./snippets/{owner}/inline{number}.js"),
                    script.clone(),
                )
            })
        })
        .collect();
    Ok(App {
        glue: output.js().to_owned(),
        wasm: output.wasm_mut().emit_wasm(),
        snippets,
        parts,
    })
}
