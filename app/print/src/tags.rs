//! What the parts of a sheet are, for those who hear it: the structure tree of
//! tagged PDF (ISO 32000-1, 14.8; ISO 14289-1).

use std::num::NonZeroU16;

use krilla::tagging::{BBox, Identifier, Node, TableHeaderScope, Tag, TagGroup, TagKind, TagTree};

/// What a part is.
#[derive(Debug, Clone)]
pub(crate) enum Role {
    /// A heading of that level, from 1, and what it says.
    Heading(u16, String),
    Paragraph,
    /// A drawing, and what it shows.
    Figure(String),
    Caption,
    Table,
    Row,
    /// A cell that says what stands below it.
    ColumnHead,
    /// A cell that says what stands beside it.
    RowHead,
    Cell,
    /// What somebody is warned of, or has written.
    Aside,
}

/// A part, by its place among all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct PartId(usize);

#[derive(Debug)]
struct Part {
    role: Role,
    within: Option<PartId>,
    content: Vec<Identifier>,
    bounds: Option<BBox>,
}

/// All parts of a sheet in the order they are read.
#[derive(Debug, Default)]
pub(crate) struct Parts(Vec<Part>);

impl Parts {
    /// A part that follows those before it.
    pub(crate) fn add(&mut self, role: Role, within: Option<PartId>) -> PartId {
        self.0.push(Part {
            role,
            within,
            content: Vec::new(),
            bounds: None,
        });
        PartId(self.0.len() - 1)
    }

    /// Something drawn that belongs to a part.
    pub(crate) fn drawn(&mut self, part: PartId, content: Identifier) {
        if let Some(part) = self.0.get_mut(part.0) {
            part.content.push(content);
        }
    }

    /// Whether something of a part is drawn already.
    pub(crate) fn is_begun(&self, part: PartId) -> bool {
        let part = self.0.get(part.0);
        part.is_some_and(|part| !part.content.is_empty())
    }

    /// Where a part stands, all of it.
    pub(crate) fn stands(&mut self, part: PartId, bounds: Option<BBox>) {
        if let Some(part) = self.0.get_mut(part.0) {
            part.bounds = bounds;
        }
    }

    /// The tree of all parts.
    pub(crate) fn tree(self, language: &str) -> TagTree {
        let mut tree = TagTree::new().with_lang(Some(language.to_owned()));
        let mut groups: Vec<Option<TagGroup>> = Vec::with_capacity(self.0.len());
        let mut within = Vec::with_capacity(self.0.len());
        for part in self.0 {
            let content = part.content.into_iter().map(Node::Leaf).collect();
            groups.push(Some(TagGroup::with_children(
                tag(part.role, part.bounds),
                content,
            )));
            within.push(part.within);
        }
        // What is within another follows it, so that from the last to the first each
        // is whole when it is put where it belongs, before those put there already.
        let mut top = Vec::new();
        for number in (0..groups.len()).rev() {
            let group = groups.get_mut(number).and_then(Option::take);
            // What had no room is no part.
            let Some(group) = group.filter(|group| !group.children.is_empty()) else {
                continue;
            };
            let outer = within.get(number).copied().flatten();
            match outer.and_then(|PartId(outer)| groups.get_mut(outer)) {
                Some(Some(outer)) => outer.children.insert(0, group.into()),
                _ => top.push(group),
            }
        }
        top.into_iter().rev().for_each(|group| tree.push(group));
        tree
    }
}

fn tag(role: Role, bounds: Option<BBox>) -> TagKind {
    match role {
        Role::Heading(level, says) => {
            let level = NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN);
            Tag::Hn(level, Some(says)).into()
        }
        Role::Paragraph => Tag::P.into(),
        Role::Figure(shows) => Tag::Figure(Some(shows)).with_bbox(bounds).into(),
        Role::Caption => Tag::Caption.into(),
        Role::Table => Tag::Table.into(),
        Role::Row => Tag::TR.into(),
        Role::ColumnHead => Tag::TH(TableHeaderScope::Column).into(),
        Role::RowHead => Tag::TH(TableHeaderScope::Row).into(),
        Role::Cell => Tag::TD.into(),
        Role::Aside => Tag::Div.into(),
    }
}
