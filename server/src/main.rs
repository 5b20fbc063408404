//! Starts the server.

use std::process::ExitCode;

use clap::Parser as _;
use foldwright_server::{Options, run};

fn main() -> ExitCode {
    match run(&Options::parse()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(trouble) => {
            eprintln!("{trouble}");
            ExitCode::FAILURE
        }
    }
}
