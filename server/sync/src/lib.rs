//! Keeps the documents of workshops, and passes them between devices.

pub mod store;
