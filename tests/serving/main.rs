//! Checks of the running server.
