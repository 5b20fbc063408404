//! What is served over HTTPS, looked at with programs that others wrote: curl
//! and the command line of OpenSSL.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod files;
mod outside;
mod own;
mod pages;
mod site;
mod talk;
