//! The tables, made step by step. A step that was ever released is never
//! changed; what is new is a step more.

/// The steps, in statements. `BLOB` is written as each database calls it.
pub(super) const STEPS: [&[&str]; 3] = [
    TABLES,
    // Which device removed another one.
    &["ALTER TABLE device ADD COLUMN remover TEXT NOT NULL DEFAULT ''"],
    // Photographs of paper, as they are.
    &["CREATE TABLE photo (
        workshop TEXT NOT NULL,
        name TEXT NOT NULL,
        body BLOB NOT NULL,
        PRIMARY KEY (workshop, name)
    )"],
];

/// What there was at first.
const TABLES: &[&str] = &[
    "CREATE TABLE workshop (
        id TEXT PRIMARY KEY,
        name TEXT NOT NULL,
        last BIGINT NOT NULL DEFAULT 0,
        made BIGINT NOT NULL
    )",
    // Changes one by one, each with its number in the workshop.
    "CREATE TABLE change (
        workshop TEXT NOT NULL,
        number BIGINT NOT NULL,
        document TEXT NOT NULL,
        body BLOB NOT NULL,
        PRIMARY KEY (workshop, number)
    )",
    "CREATE INDEX change_document ON change (workshop, document, number)",
    // All changes of a document up to a number, merged.
    "CREATE TABLE whole (
        workshop TEXT NOT NULL,
        document TEXT NOT NULL,
        number BIGINT NOT NULL,
        body BLOB NOT NULL,
        PRIMARY KEY (workshop, document)
    )",
    "CREATE INDEX whole_number ON whole (workshop, number)",
    "CREATE TABLE device (
        id TEXT PRIMARY KEY,
        workshop TEXT NOT NULL,
        name TEXT NOT NULL,
        key BLOB NOT NULL UNIQUE,
        made BIGINT NOT NULL,
        seen BIGINT NOT NULL,
        revoked BIGINT NOT NULL DEFAULT 0
    )",
    "CREATE TABLE offer (
        code BLOB PRIMARY KEY,
        workshop TEXT NOT NULL,
        name TEXT NOT NULL,
        until BIGINT NOT NULL
    )",
    "CREATE TABLE share (
        id TEXT PRIMARY KEY,
        workshop TEXT NOT NULL,
        document TEXT NOT NULL,
        token BLOB NOT NULL UNIQUE,
        made BIGINT NOT NULL
    )",
];
