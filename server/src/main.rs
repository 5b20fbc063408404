//! Starts the server.

fn main() {}
