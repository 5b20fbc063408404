//! Measures of recipes from before measures knew their part: there the name of a
//! measure was that of its part, and a word for what it was of it.

use std::collections::BTreeMap;

use super::{
    Corner, Cut, Direction, End, MeasureId, MeasureOf, Outline, Owner, Piece, Placing, Recipe,
    Role, Strip,
};

impl Recipe {
    /// Tells the measures which part they are of, where their names say so as
    /// they did before version 4 of a file.
    pub fn know_measures(&mut self) {
        let mut known: BTreeMap<MeasureId, Vec<(String, MeasureOf)>> = BTreeMap::new();
        for (id, name, part, is) in self.owned() {
            let former = format!("{name} {}", former(is));
            let of = MeasureOf { part, is };
            known.entry(id).or_default().push((former, of));
        }
        for measure in self.measures.iter_mut().filter(|it| it.of.is_none()) {
            let may = known.get(&measure.id);
            let may = may.and_then(|may| may.iter().find(|(name, _)| *name == measure.name));
            measure.of = may.map(|(_, of)| *of);
        }
    }

    /// Every measure of a part, with the name of the part.
    fn owned(&self) -> Vec<(MeasureId, String, Owner, Role)> {
        let mut owned = Owned(Vec::new());
        owned.strip(&self.base.strip, None);
        for piece in &self.pieces {
            owned.strip(&piece.strip, Some(piece));
            owned.piece(piece);
        }
        for layer in &self.layers {
            let of = (&*layer.name, Owner::Layer(layer.id));
            owned.add(layer.width, of, Role::Width);
            owned.add(layer.height, of, Role::Height);
            owned.add(layer.left, of, Role::Left);
            owned.add(layer.bottom, of, Role::Bottom);
            owned.placed(layer.place, &layer.outline, of);
        }
        owned.0
    }
}

/// What a measure was called behind the name of its part.
fn former(is: Role) -> String {
    let direction = |direction| match direction {
        Direction::Along => "along",
        Direction::Across => "across",
    };
    let towards = |end| match end {
        End::From => "from",
        End::To => "to",
    };
    let word = match is {
        Role::Width => "width",
        Role::Height => "height",
        Role::Length => "length",
        Role::Left => "from the left",
        Role::Bottom => "from the bottom",
        Role::Border => "border",
        Role::Radius => "radius",
        Role::Rise => "rise",
        Role::Depth => "depth",
        Role::End(End::From, of) => return format!("start {}", direction(of)),
        Role::End(End::To, of) => return format!("end {}", direction(of)),
        Role::Mark(end, of) => return format!("line {} {}", towards(end), direction(of)),
        Role::MarkAt(place, end, of) => {
            return format!("place {place} line {} {}", towards(end), direction(of));
        }
    };
    word.to_owned()
}

struct Owned(Vec<(MeasureId, String, Owner, Role)>);

impl Owned {
    fn add(&mut self, id: MeasureId, (name, part): (&str, Owner), is: Role) {
        self.0.push((id, name.to_owned(), part, is));
    }

    fn corner(&mut self, corner: Corner, of: (&str, Owner), is: impl Fn(Direction) -> Role) {
        self.add(corner.x, of, is(Direction::Along));
        self.add(corner.y, of, is(Direction::Across));
    }

    fn placed(&mut self, place: Placing, outline: &Outline, of: (&str, Owner)) {
        if let Placing::Border(border) = place {
            self.add(border, of, Role::Border);
        }
        match outline {
            Outline::Rounded(radius) => self.add(*radius, of, Role::Radius),
            Outline::Arched(rise) => self.add(*rise, of, Role::Rise),
            Outline::Straight
            | Outline::Round
            | Outline::Cut(_)
            | Outline::Traced(_)
            | Outline::Follows => {}
        }
    }

    fn strip(&mut self, strip: &Strip, of: Option<&Piece>) {
        for panel in &strip.panels {
            let name = match of {
                Some(piece) => format!("{} {}", piece.name, panel.name),
                None => panel.name.clone(),
            };
            let part = Owner::Panel(panel.id);
            self.add(panel.width, (&name, part), Role::Width);
            // The panels of a tent lie above each other.
            self.add(panel.width, (&name, part), Role::Height);
        }
        for line in &strip.lines {
            let of = (&*line.name, Owner::Line(line.id));
            self.corner(line.from, of, |way| Role::End(End::From, way));
            self.corner(line.to, of, |way| Role::End(End::To, way));
        }
        for cutout in &strip.cutouts {
            let of = (&*cutout.name, Owner::Cutout(cutout.id));
            match &cutout.cut {
                Cut::Window(window) => {
                    self.add(window.width, of, Role::Width);
                    self.add(window.height, of, Role::Height);
                    self.add(window.left, of, Role::Left);
                    self.add(window.bottom, of, Role::Bottom);
                    self.placed(window.place, &window.outline, of);
                }
                Cut::Corners { radius, .. } => self.add(*radius, of, Role::Radius),
                Cut::Edge { depth, .. } => self.add(*depth, of, Role::Depth),
            }
        }
    }

    fn piece(&mut self, piece: &Piece) {
        let of = (&*piece.name, Owner::Piece(piece.id));
        self.add(piece.strip.length, of, Role::Length);
        self.add(piece.strip.height, of, Role::Height);
        for (place, join) in (1..).zip(&piece.joins) {
            let role = |end| {
                move |way| match place {
                    1 => Role::Mark(end, way),
                    place => Role::MarkAt(place, end, way),
                }
            };
            if let Some(mark) = join.at {
                self.corner(mark.from, of, role(End::From));
                self.corner(mark.to, of, role(End::To));
            }
        }
    }
}
