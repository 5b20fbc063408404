//! One document: what is kept, merged and sent.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Arc, Mutex, PoisonError};

use serde_json::{Map, Number, Value};
use yrs::updates::decoder::Decode as _;
use yrs::updates::encoder::Encode as _;
use yrs::{
    Any, ClientID, Doc, Map as _, MapRef, OffsetKind, Options, Out, ReadTxn as _, StateVector,
    Transact as _, Update, merge_updates_v1,
};

use crate::order::Draw;
use crate::read::{Entry, Node, Oddity};
use crate::said::Hand;
use crate::sane::{self, Needs};
use crate::text;
use crate::write::{Op, Writer};

/// The name, among what the document holds, of the entries of the object.
pub(crate) const OBJECT: &str = "object";
/// The highest number JavaScript keeps exactly; a writer has no more bits.
pub(crate) const MOST_WRITERS: u64 = (1 << 53) - 1;
/// How deep values may be nested. Our own bound; a recipe needs six levels.
pub(crate) const DEEPEST: usize = 32;

/// Bytes that are no document, or no change of one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Malformed;

impl fmt::Display for Malformed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("These bytes are not a change of a document.")
    }
}

impl std::error::Error for Malformed {}

/// A document as one writer has it.
#[derive(Debug)]
pub struct Document {
    pub(crate) doc: Doc,
    pub(crate) draw: Draw,
    object: MapRef,
    /// Changes that came before what they go on from, and what that is.
    early: Vec<(Needs, Vec<u8>)>,
    /// The entries as a tree, until something changes them: it is asked for many
    /// times between two changes, and takes long for a large object.
    tree: Mutex<Option<Arc<Node>>>,
}

impl Document {
    /// An empty document. `writer` is a number no other writer of the document
    /// has or had: draw it anew, from all 53 bits, whenever one is opened.
    pub fn new(writer: u64) -> Self {
        let doc = document(writer);
        let object = doc.get_or_insert_map(OBJECT);
        Self {
            doc,
            draw: Draw::new(writer),
            object,
            early: Vec::new(),
            tree: Mutex::default(),
        }
    }

    /// The document in the bytes that [`Self::bytes`] gave.
    pub fn open(writer: u64, bytes: &[u8]) -> Result<Self, Malformed> {
        let mut document = Self::new(writer);
        document.apply(bytes)?;
        Ok(document)
    }

    /// Everything there is of it, to be kept or sent. What came too early is
    /// not: whoever has what it goes on from has it too.
    pub fn bytes(&self) -> Vec<u8> {
        self.doc
            .transact()
            .encode_state_as_update_v1(&StateVector::default())
    }

    /// What it has seen, encoded: the first step of the y-sync protocol.
    pub fn state(&self) -> Vec<u8> {
        self.doc.transact().state_vector().encode_v1()
    }

    /// What it has that one who has seen `state` lacks: the second step.
    pub fn since(&self, state: &[u8]) -> Result<Vec<u8>, Malformed> {
        sane::state(state)?;
        let state = StateVector::decode_v1(state).map_err(|_| Malformed)?;
        Ok(self.doc.transact().encode_state_as_update_v1(&state))
    }

    /// Takes in a change, or all of another copy. May come twice or too early.
    ///
    /// What comes too early waits here: yrs 0.28 mixes clocks up where a
    /// document with changes that wait in it is written and read again, and
    /// two that have seen the same then hold different things.
    pub fn apply(&mut self, update: &[u8]) -> Result<(), Malformed> {
        let needs = sane::update(update)?;
        if !self.has(&needs) {
            Update::decode_v1(update).map_err(|_| Malformed)?;
            if self.early.iter().all(|(_, early)| early != update) {
                self.early.push((needs, update.to_owned()));
            }
            return Ok(());
        }
        self.take_in(update)?;
        while let Some(at) = self.early.iter().position(|(needs, _)| self.has(needs)) {
            let (_, early) = self.early.swap_remove(at);
            self.take_in(&early)?;
        }
        Ok(())
    }

    /// Takes in a change whose beginnings are here.
    pub(crate) fn take_in(&self, update: &[u8]) -> Result<(), Malformed> {
        let update = Update::decode_v1(update).map_err(|_| Malformed)?;
        self.forget_tree();
        let mut transaction = self.doc.transact_mut();
        transaction.apply_update(update).map_err(|_| Malformed)
    }

    /// Whether everything is here that an update goes on from.
    fn has(&self, needs: &Needs) -> bool {
        let seen = self.doc.transact().state_vector();
        let mut needs = needs.iter();
        needs.all(|(writer, clock)| u64::from(seen.get(&ClientID::new(writer))) >= clock)
    }

    /// Whether changes have come whose beginnings are still missing.
    pub fn waits(&self) -> bool {
        !self.early.is_empty() || self.doc.transact().has_missing_updates()
    }

    /// Whether what came too early says no more than that something was taken
    /// away.
    pub(crate) fn early_is_nothing(&self) -> bool {
        let mut early = self.early.iter();
        early.all(|(needs, _)| needs.bring_nothing())
    }

    /// The object, and what merging made of it that nobody meant. `None` where
    /// nothing was ever written.
    pub fn read(&self) -> (Option<Value>, Vec<Oddity>) {
        let tree = self.tree();
        let mut oddities = Vec::new();
        let object = tree.object(&mut oddities);
        let value = (!object.is_empty()).then_some(Value::Object(object));
        (value, oddities)
    }

    /// Writes what differs between `old`, the object as it was read or last
    /// written here, and `new`. Returns the change to send; `None` where
    /// nothing differs.
    pub fn write(&mut self, old: &Value, new: &Value) -> Option<Vec<u8>> {
        self.write_by(old, new, None)
    }

    /// The same, and keeps who it was, as far as somebody else may have
    /// changed the same without knowing of it.
    pub fn write_by(
        &mut self,
        old: &Value,
        new: &Value,
        hand: Option<&Hand<'_>>,
    ) -> Option<Vec<u8>> {
        let tree = self.tree();
        let mut writer = Writer {
            ops: Vec::new(),
            changes: Vec::new(),
            fresh: old.is_null(),
            draw: &mut self.draw,
        };
        writer.fields("", &tree, old, new);
        let (ops, changes) = (writer.ops, writer.changes);
        let told = hand.map(|hand| self.telling(hand, &ops, &changes, new));
        let mut changes = Vec::new();
        let mut texts = BTreeMap::new();
        for op in &ops {
            if let Op::Text(path, ..) = op {
                let whole = self.whole(path);
                if let Some(whole) = &whole {
                    changes.extend(self.take_over(path, whole));
                }
                texts.insert(path.as_str(), (self.text(path), whole));
            }
        }
        changes.extend(self.change(|map, transaction| {
            if let Some(told) = &told {
                told.write(transaction);
            }
            for op in &ops {
                match op {
                    Op::Set(path, value) => {
                        map.insert(transaction, path.as_str(), any(value));
                    }
                    Op::Unset(path) => {
                        map.remove(transaction, path);
                    }
                    Op::Text(path, old, new) => {
                        if let Some((text, whole)) = texts.get(path.as_str()) {
                            text::take_in(text, transaction, whole.as_deref());
                            text::change(text, transaction, old, new);
                        }
                    }
                    Op::Item(path, place, there, value) => {
                        let head = [Any::from(place.as_str()), Any::Bool(*there)];
                        let entry: Vec<Any> =
                            head.into_iter().chain(value.as_ref().map(any)).collect();
                        map.insert(transaction, path.as_str(), Any::Array(Arc::from(entry)));
                    }
                }
            }
        }));
        together(changes)
    }

    /// Runs a change of the object's entries and returns it encoded.
    fn change(
        &self,
        change: impl FnOnce(&MapRef, &mut yrs::TransactionMut<'_>),
    ) -> Option<Vec<u8>> {
        self.encoded(|transaction| change(&self.object, transaction))
    }

    /// Runs a change and returns it encoded; `None` where it changed nothing.
    pub(crate) fn encoded(
        &self,
        change: impl FnOnce(&mut yrs::TransactionMut<'_>),
    ) -> Option<Vec<u8>> {
        self.forget_tree();
        encoded(&self.doc, change)
    }

    fn forget_tree(&self) {
        *self.tree.lock().unwrap_or_else(PoisonError::into_inner) = None;
    }

    /// The entries, as a tree.
    pub(crate) fn tree(&self) -> Arc<Node> {
        let mut tree = self.tree.lock().unwrap_or_else(PoisonError::into_inner);
        Arc::clone(tree.get_or_insert_with(|| Arc::new(self.grow_tree())))
    }

    fn grow_tree(&self) -> Node {
        let transaction = self.doc.transact();
        let mut root = Node::default();
        for (path, out) in self.object.iter(&transaction) {
            let Out::Any(any) = out else { continue };
            match &any {
                Any::Array(parts) if is_item(path) => {
                    if let [Any::String(place), Any::Bool(there), value @ ..] = &parts[..] {
                        let value = value.first().and_then(|value| json(value, DEEPEST));
                        root.add(path, Entry::Item((**place).to_owned(), *there, value));
                    }
                }
                any => {
                    if let Some(value) = json(any, DEEPEST) {
                        root.add(path, Entry::Leaf(value));
                    }
                }
            }
        }
        drop(transaction);
        for (path, text) in self.texts() {
            root.add(&path, Entry::Text(text));
        }
        for path in self.changed_paths() {
            root.bring_back(&path);
        }
        root
    }
}

/// An empty document of a writer, which counts letters as Yjs does.
pub(crate) fn document(writer: u64) -> Doc {
    let mut options = Options::with_client_id(ClientID::new(writer & MOST_WRITERS));
    options.offset_kind = OffsetKind::Utf16;
    Doc::with_options(options)
}

/// Several changes, made one after the other, as one; `None` where there are
/// none.
pub fn together(mut changes: Vec<Vec<u8>>) -> Option<Vec<u8>> {
    let last = changes.pop()?;
    if changes.is_empty() {
        return Some(last);
    }
    changes.push(last);
    // Fails only for what is no change.
    merge_updates_v1(changes).ok()
}

/// Whether bytes are a change of a document, without one to apply it to.
pub fn check(update: &[u8]) -> Result<(), Malformed> {
    let _needs = sane::update(update)?;
    Update::decode_v1(update).map(drop).map_err(|_| Malformed)
}

/// Runs a change of any document of yrs and returns it encoded; `None` where it
/// changed nothing.
pub(crate) fn encoded(
    doc: &Doc,
    change: impl FnOnce(&mut yrs::TransactionMut<'_>),
) -> Option<Vec<u8>> {
    let mut transaction = doc.transact_mut();
    change(&mut transaction);
    transaction
        .has_changes()
        .then(|| transaction.encode_update_v1())
}

fn is_item(path: &str) -> bool {
    path.rsplit('.')
        .next()
        .is_some_and(|last| last.contains('/'))
}

/// JSON as an entry holds it.
pub(crate) fn any(value: &Value) -> Any {
    match value {
        Value::Null => Any::Null,
        Value::Bool(yes) => Any::Bool(*yes),
        Value::Number(number) => number
            .as_i64()
            .map(Any::from)
            .or_else(|| number.as_f64().map(Any::from))
            .unwrap_or(Any::Null),
        Value::String(text) => Any::from(text.as_str()),
        Value::Array(items) => Any::Array(items.iter().map(any).collect()),
        Value::Object(fields) => Any::Map(Arc::new(
            fields
                .iter()
                .map(|(name, value)| (name.clone(), any(value)))
                .collect(),
        )),
    }
}

/// An entry as JSON; `None` for what JSON has no word for.
pub(crate) fn json(any: &Any, deepest: usize) -> Option<Value> {
    let inner = deepest.checked_sub(1)?;
    Some(match any {
        Any::Null => Value::Null,
        Any::Bool(yes) => Value::Bool(*yes),
        Any::Number(number) => {
            whole(*number).map_or_else(|| float(*number), |number| Some(Value::from(number)))?
        }
        Any::String(text) => Value::from(&**text),
        Any::Array(items) => Value::Array(
            items
                .iter()
                .map(|item| json(item, inner))
                .collect::<Option<_>>()?,
        ),
        Any::Map(fields) => {
            let fields = fields
                .iter()
                .map(|(name, value)| Some((name.clone(), json(value, inner)?)));
            Value::Object(fields.collect::<Option<Map<_, _>>>()?)
        }
        Any::Undefined | Any::Buffer(_) => return None,
    })
}

/// The number of a writer, for entries that are each one writer's own.
pub(crate) fn writer(doc: &Doc) -> u64 {
    ClientID::get(&doc.client_id())
}

/// A whole number; those of more than 32 bits travel as JavaScript keeps them.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    reason = "numbers up to 2⁵³ are whole in both forms"
)]
pub(crate) fn whole(number: yrs::any::Number) -> Option<i64> {
    match number {
        yrs::any::Number::Int(number) => Some(number),
        yrs::any::Number::Float(number) => {
            (number.fract() == 0.0 && number.abs() <= MOST_WRITERS as f64).then_some(number as i64)
        }
    }
}

fn float(number: yrs::any::Number) -> Option<Value> {
    match number {
        yrs::any::Number::Int(number) => Some(Value::from(number)),
        yrs::any::Number::Float(number) => Number::from_f64(number).map(Value::Number),
    }
}
