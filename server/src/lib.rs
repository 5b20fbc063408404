//! Serves the app.
