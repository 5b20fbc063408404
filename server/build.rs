//! Bundles the app and writes it down for the server to embed.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::{env, fs};

use foldwright_bundle::{Bundle, Cache, Effort, Order, bundle};

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(trouble) => {
            println!("cargo::error={}", trouble.replace('\n', " "));
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<(), String> {
    let package = variable("CARGO_MANIFEST_DIR")?;
    let root = package.parent().unwrap_or(&package);
    let out = variable("OUT_DIR")?;
    for watched in [
        "app",
        "public",
        "style",
        "Cargo.toml",
        "Cargo.lock",
        "rust-toolchain.toml",
    ] {
        println!("cargo::rerun-if-changed={}", root.join(watched).display());
    }
    let effort = if env::var("PROFILE").as_deref() == Ok("release") {
        Effort::Release
    } else {
        Effort::Quick
    };
    let bundle = bundle(&Order {
        app: &root.join("app"),
        public: &[&root.join("public")],
        style: &root.join("style"),
        target: &output_folder(&out)?.join("wasm"),
        effort,
    })
    .map_err(|trouble| trouble.to_string())?;
    write(&bundle, &out).map_err(|why| format!("The bundle cannot be written: {why}"))
}

fn variable(name: &str) -> Result<PathBuf, String> {
    env::var_os(name)
        .map(PathBuf::from)
        .ok_or_else(|| format!("{name} is not set; this script is run by cargo."))
}

/// Cargo's output folder, where `out` is `PROFILE/build/PACKAGE/out`.
fn output_folder(out: &Path) -> Result<&Path, String> {
    out.ancestors()
        .nth(4)
        .ok_or_else(|| format!("{} is not where cargo puts things.", out.display()))
}

/// Writes each form of each file that is embedded, and the expression that
/// embeds them.
fn write(bundle: &Bundle, out: &Path) -> std::io::Result<()> {
    let mut source = format!("Site::of(String::from({:?}), vec![\n", bundle.release);
    for (number, file) in bundle.files.iter().enumerate() {
        let embed = |end: &str, bytes: &[u8]| {
            let path = out.join(format!("{number}.{end}"));
            fs::write(&path, bytes)?;
            // As a literal, with what a path may hold escaped.
            let literal = format!("{:?}", path.to_string_lossy());
            Ok::<_, std::io::Error>(format!("Bytes::from_static(include_bytes!({literal}))"))
        };
        let (as_is, brotli) = match &file.brotli {
            Some(brotli) => (
                String::from("OnceLock::new()"),
                format!("Some({})", embed("brotli", brotli)?),
            ),
            None => (
                format!("OnceLock::from({})", embed("plain", &file.plain)?),
                String::from("None"),
            ),
        };
        let keep = match file.cache {
            Cache::Forever => "Keep::Forever",
            Cache::Ask => "Keep::Ask",
        };
        // Writing to a string cannot fail.
        let _ = writeln!(
            source,
            "Asset {{ path: String::from({:?}), content_type: {:?}, \
             language: None, keep: {keep}, tag: String::from({:?}), as_is: {as_is}, \
             in_gzip: OnceLock::new(), brotli: {brotli} }},",
            file.path, file.content_type, file.tag,
        );
    }
    source.push_str("])\n");
    fs::write(out.join("site.rs"), source)
}
