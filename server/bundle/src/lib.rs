//! Turns the app, the styles and the public files into what a browser loads.
