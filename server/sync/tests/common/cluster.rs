//! A PostgreSQL of our own, in a folder that goes with it.

#![allow(dead_code, reason = "not everybody needs all of it")]
#![expect(
    clippy::expect_used,
    reason = "a check may stop where its own pieces do not fit"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};

static FOLDERS: AtomicU32 = AtomicU32::new(0);

/// A new folder that goes when it is dropped.
pub(crate) struct Folder(pub(crate) PathBuf);

impl Folder {
    pub(crate) fn new() -> Self {
        let number = FOLDERS.fetch_add(1, Ordering::Relaxed);
        let name = format!("foldwright-test-{}-{number}", std::process::id());
        let path = std::env::temp_dir().join(name);
        fs::create_dir_all(&path).expect("a folder for the test");
        Self(path)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // What is left behind is the system's to clean.
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// A running PostgreSQL that listens on a socket in its folder only.
pub(crate) struct Cluster {
    folder: Folder,
    programs: PathBuf,
    root: bool,
}

impl Cluster {
    /// Makes a cluster with the installed programs and starts it.
    pub(crate) fn start() -> Self {
        let folder = Folder::new();
        let programs = programs().expect("PostgreSQL is not installed: install 'postgresql'");
        let root = fs::metadata("/proc/self").is_ok_and(|it| {
            use std::os::unix::fs::MetadataExt as _;
            it.uid() == 0
        });
        let cluster = Self {
            folder,
            programs,
            root,
        };
        if root {
            // It refuses to run as root.
            let done = Command::new("chown")
                .arg("postgres")
                .arg(&cluster.folder.0)
                .status();
            assert!(done.expect("chown").success(), "there is a user postgres");
        }
        cluster.run(
            "initdb",
            &[
                "-D",
                &cluster.data(),
                "-U",
                "maker",
                "-A",
                "trust",
                "-E",
                "UTF8",
                "--no-sync",
            ],
        );
        cluster.go();
        cluster
    }

    fn data(&self) -> String {
        self.folder.0.join("data").display().to_string()
    }

    /// Starts it, after [`Self::stop`] or [`Self::kill`].
    pub(crate) fn go(&self) {
        let options = format!("-c listen_addresses='' -k {}", self.folder.0.display());
        let log = self.folder.0.join("log").display().to_string();
        self.run(
            "pg_ctl",
            &[
                "-D",
                &self.data(),
                "-w",
                "-t",
                "60",
                "-l",
                &log,
                "-o",
                &options,
                "start",
            ],
        );
    }

    /// Stops it at once, connections and all.
    pub(crate) fn stop(&self) {
        self.run(
            "pg_ctl",
            &["-D", &self.data(), "-w", "-m", "immediate", "stop"],
        );
    }

    /// The address of a new, empty database.
    pub(crate) fn database(&self, name: &str) -> String {
        let folder = self.folder.0.display().to_string();
        self.run("createdb", &["-h", &folder, "-U", "maker", name]);
        format!(
            "postgres://maker@localhost/{name}?host={}",
            folder.replace('/', "%2F")
        )
    }

    fn run(&self, program: &str, arguments: &[&str]) {
        let program = self.programs.join(program);
        let mut command = if self.root {
            let mut command = Command::new("setpriv");
            command
                .args(["--reuid=postgres", "--regid=postgres", "--clear-groups"])
                .arg(&program);
            command
        } else {
            Command::new(&program)
        };
        let done = command
            .args(arguments)
            .current_dir("/")
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .status();
        assert!(
            done.expect("a program of PostgreSQL").success(),
            "{} {arguments:?}",
            program.display()
        );
    }
}

impl Drop for Cluster {
    fn drop(&mut self) {
        // It may be stopped already.
        let _ = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| self.stop()));
    }
}

/// Where the programs are: on the path, or where Debian puts them.
fn programs() -> Option<PathBuf> {
    let installed = fs::read_dir("/usr/lib/postgresql")
        .ok()
        .into_iter()
        .flatten();
    let debian = installed
        .flatten()
        .map(|version| version.path().join("bin"));
    let path = std::env::var_os("PATH").unwrap_or_default();
    let on_path: Vec<PathBuf> = std::env::split_paths(&path).collect();
    debian
        .chain(on_path)
        .find(|folder: &PathBuf| Path::new(folder).join("initdb").exists())
}
