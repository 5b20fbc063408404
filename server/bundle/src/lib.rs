//! Turns an app, its styles and its public files into what a browser loads.
//!
//! The app is compiled to WebAssembly, files get names made from their
//! content, the page and the service worker are told those names, and every
//! text is compressed once, here, and never again while serving. The same
//! input gives the same output.

mod compile;
mod compress;
mod gather;
mod name;
mod public;
mod script;
mod slim;
mod split;
mod style;
mod template;
mod trouble;

use std::collections::BTreeMap;
use std::path::Path;

pub use trouble::Trouble;

use name::Kind;
use split::Parts;
use template::Names;

/// What to bundle.
#[derive(Clone, Copy, Debug)]
pub struct Order<'a> {
    /// Folder of the package whose one binary is the app.
    pub app: &'a Path,
    /// Folders with the page, the manifest, the icons and the scripts. A file
    /// in a later folder replaces one of the same name in an earlier.
    pub public: &'a [&'a Path],
    /// Folder with the style sheets, joined in the order of their names.
    pub style: &'a Path,
    /// Cargo's output folder for the browser's build. It must not be the one
    /// of a build that is still running.
    pub target: &'a Path,
    /// How much work to put in.
    pub effort: Effort,
}

/// How much work goes into a bundle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effort {
    /// Small to load: full optimisation and compression.
    Release,
    /// Quick to build: little optimisation, no compression.
    Quick,
}

/// How long a browser may keep a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cache {
    /// For good: the name changes with the content.
    Forever,
    /// Only after asking whether it is still current.
    Ask,
}

/// One file as the server sends it.
#[derive(Clone, Debug)]
pub struct File {
    /// Path of the address, such as `/assets/style-01234567.css`.
    pub path: String,
    /// Media type, with the character set where there is one.
    pub content_type: &'static str,
    /// How long a browser may keep it.
    pub cache: Cache,
    /// Hash of the content.
    pub tag: String,
    /// The bytes as they are.
    pub plain: Vec<u8>,
    /// The bytes in Brotli, where that is smaller.
    pub brotli: Option<Vec<u8>>,
}

/// Everything a browser loads.
#[derive(Clone, Debug)]
pub struct Bundle {
    /// Names this state of the files; another state has another name.
    pub release: String,
    /// The files in the order of their paths.
    pub files: Vec<File>,
}

/// Compiles the app and bundles it with its styles and public files.
///
/// # Errors
///
/// Says what is missing or wrong: the target for the browser that cannot be
/// added, an app that does not compile, a file that cannot be read, a
/// placeholder that names no file.
pub fn bundle(order: &Order<'_>) -> Result<Bundle, Trouble> {
    let app = compile::app(order)?;
    let mut public = public::read(order.public)?;
    let mut names = Names::default();
    let mut files = Vec::new();

    for (name, bytes) in public.take_plain() {
        files.push(hashed(&mut names, &name, bytes)?);
    }
    let style = names.fill("style.css", &style::joined(order.style)?)?;
    files.push(hashed(&mut names, "style.css", style.into_bytes())?);
    let mut glue = app.glue;
    for (number, (import, script)) in app.snippets.into_iter().enumerate() {
        let snippet = hashed(
            &mut names,
            &format!("snippet-{number}.js"),
            script.into_bytes(),
        )?;
        glue = glue.replace(&import, &snippet.path);
        files.push(snippet);
    }
    let (linked, languages) = linked(&mut names, glue, app.parts)?;
    files.extend(linked);
    files.push(hashed(&mut names, "app.wasm", app.wasm)?);
    let early = names.fill("early.js", &public.early)?;
    files.push(hashed(&mut names, "early.js", early.into_bytes())?);
    let boot = names.fill("boot.js", &public.boot)?;
    files.push(hashed(&mut names, "boot.js", boot.into_bytes())?);
    let beside = names.fill("beside.js", &public.beside)?;
    files.push(hashed(&mut names, "beside.js", beside.into_bytes())?);
    let manifest = names.fill("manifest.webmanifest", &public.manifest)?;
    files.push(named("/manifest.webmanifest", manifest.into_bytes())?);

    // Of the languages the worker keeps only those that are spoken.
    let spoken: Vec<&String> = languages.values().collect();
    let kept = files.iter().map(|file| &file.path);
    let kept = kept.filter(|path| !spoken.contains(path));
    let kept: Vec<&str> = std::iter::once("/")
        .chain(kept.map(String::as_str))
        .collect();
    names.set("precache", serde_json::json!(kept).to_string());
    // The release is a name for all content, so it is made before it is
    // written into the page and the worker.
    let release = name::release(&files, &[&public.page, &public.worker]);
    names.set("release", release.clone());
    let page = names.fill("index.html", &public.page)?;
    let worker = names.fill("worker.js", &public.worker)?;
    files.push(named("/", page.into_bytes())?);
    files.push(named("/worker.js", worker.into_bytes())?);

    files.sort_by(|a, b| a.path.cmp(&b.path));
    if order.effort == Effort::Release {
        compress::all(&mut files)?;
    }
    Ok(Bundle { release, files })
}

/// The addresses of languages by their tags.
type Languages = BTreeMap<String, String>;

/// The glue, the parts left for later, and the script that links them; beside
/// them which of the parts are languages. Glue and link script name each other,
/// so the latter's name is made before it is told the former's.
fn linked(
    names: &mut Names,
    mut glue: String,
    parts: Parts,
) -> Result<(Vec<File>, Languages), Trouble> {
    let (mut files, mut languages) = (Vec::new(), Languages::new());
    let mut paths = BTreeMap::new();
    let mut link = parts.link;
    for (name, module) in parts.modules {
        let part = hashed(names, name.trim_start_matches("./"), module)?;
        link = link.replace(&name, &part.path);
        if let Some(tag) = split::language(&name) {
            languages.insert(tag.to_owned(), part.path.clone());
        }
        paths.insert(name, part.path.clone());
        files.push(part);
    }
    let together = parts.together.into_iter().map(|(mark, modules)| {
        let paths: Vec<&String> = modules.iter().filter_map(|name| paths.get(name)).collect();
        (mark, serde_json::json!(paths))
    });
    let together: serde_json::Map<_, _> = together.collect();
    names.set("parts", serde_json::Value::from(together).to_string());
    names.set("languages", serde_json::json!(languages).to_string());
    let tag = name::tag(format!("{glue}{link}").as_bytes());
    let path = name::hashed_path("link.js", &tag);
    // Only where it is imported: the module goes on asking for it by this name.
    glue = glue.replace(
        &format!("from {:?}", split::LINK),
        &format!("from {path:?}"),
    );
    let glue = hashed(names, "app.js", glue.into_bytes())?;
    if !files.is_empty() {
        let link = link.replace(split::GLUE, &glue.path);
        names.set("link.js", path.clone());
        let link = script::short(&link).into_bytes();
        files.push(file(path, Cache::Forever, tag, link)?);
    }
    files.push(glue);
    Ok((files, languages))
}

/// A file under a name made from its content, which `names` learns.
fn hashed(names: &mut Names, name: &str, plain: Vec<u8>) -> Result<File, Trouble> {
    let plain = short(name, plain)?;
    let tag = name::tag(&plain);
    let path = name::hashed_path(name, &tag);
    names.set(name, path.clone());
    file(path, Cache::Forever, tag, plain)
}

/// A file at an address that never changes.
fn named(path: &str, plain: Vec<u8>) -> Result<File, Trouble> {
    let plain = short(path, plain)?;
    file(path.to_owned(), Cache::Ask, name::tag(&plain), plain)
}

/// What is in a file, without what is only for who reads it.
fn short(name: &str, plain: Vec<u8>) -> Result<Vec<u8>, Trouble> {
    Ok(match Kind::of(name)? {
        Kind::Script => script::short(&String::from_utf8_lossy(&plain)).into_bytes(),
        _ => plain,
    })
}

fn file(path: String, cache: Cache, tag: String, plain: Vec<u8>) -> Result<File, Trouble> {
    let content_type = Kind::of(&path)?.content_type();
    Ok(File {
        path,
        content_type,
        cache,
        tag,
        plain,
        brotli: None,
    })
}
