//! What can be wrong with what goes on a card and around it.

use foldwright_engine::length::Length;
use foldwright_engine::paper::{Envelope, Lies, Misfit as Tight};
use foldwright_engine::part::Part;
use foldwright_engine::pattern::LineId;
use foldwright_engine::plane::{Bearing, Edge, Turn};
use foldwright_engine::problem::{
    Contents, Cramped, FitFinding, GlueFinding, JoinFinding, Past, Reach, ReachFinding, Reacher,
};
use foldwright_engine::recipe::{Face, Side, StripId};

use super::{There, mm, size};

impl There<'_> {
    pub(crate) fn fit(&self) -> Vec<FitFinding> {
        let stocks = self.recipe.stocks.iter();
        let stock = stocks.max_by_key(|stock| stock.name.len());
        let stock = stock.expect("it has paper").id;
        let too_large = |of, turned_fits| FitFinding::TooLarge {
            of,
            size: size(425, 148),
            stock,
            turned_fits,
        };
        let slanted = |turned, is_nearest| FitFinding::Slanted {
            face: self.faces[1],
            turned,
            is_nearest,
        };
        let leaning = |cos, sin| Bearing::towards(cos, sin).expect("it is a direction");
        let tight = |length, height| {
            FitFinding::Tight(Tight {
                envelope: Envelope::by_id("na-a2").expect("it is in the table"),
                lacking_length: Length::hundredths_mm(length),
                lacking_height: Length::hundredths_mm(height),
                lies: Lies::Upright,
            })
        };
        let [inside, outside] = self.faces;
        let back = Face {
            side: Side::A,
            ..outside
        };
        let (strip, part) = (
            Part::Strip(StripId::Base),
            Part::Strip(StripId::Piece(self.piece)),
        );
        let layer = Part::Layer(self.layer);
        every!(FitFinding:
            FitFinding::NoPaper(_) => [FitFinding::NoPaper(strip), FitFinding::NoPaper(layer)],
            FitFinding::TooLarge { .. } => [
                too_large(strip, true),
                too_large(part, false),
                too_large(layer, true),
                too_large(layer, false),
            ],
            FitFinding::Moved(_) => [FitFinding::Moved(strip), FitFinding::Moved(layer)],
            FitFinding::AcrossGrain(_) => [
                FitFinding::AcrossGrain(StripId::Base),
                FitFinding::AcrossGrain(StripId::Piece(self.piece)),
            ],
            FitFinding::Slanted { .. } => [
                slanted(Turn::None.into(), true),
                slanted(Turn::Left.into(), false),
                slanted(Turn::Half.into(), true),
                slanted(Turn::Right.into(), false),
                slanted(leaning(0.866, 0.5), true),
                slanted(leaning(0.866, -0.5), false),
            ],
            FitFinding::NotBothUpright(_) => [
                FitFinding::NotBothUpright([inside, outside]),
                FitFinding::NotBothUpright([inside, back]),
            ],
            FitFinding::Thick(_) => [FitFinding::Thick(Length::microns(3240))],
            FitFinding::UnknownRule => [FitFinding::UnknownRule],
            FitFinding::UnknownEnvelope => [FitFinding::UnknownEnvelope],
            FitFinding::Tight(_) => [tight(170, 0), tight(0, 20), tight(600, 1234)],
            FitFinding::NoEnvelope(_) => [FitFinding::NoEnvelope(size(425, 148))],
            FitFinding::BetweenMarks { .. } => [FitFinding::BetweenMarks {
                score: 0,
                at: Length::microns(99_667),
            }],
        )
    }

    pub(crate) fn join() -> Vec<JoinFinding> {
        let (most, right) = (mm(4), (Edge::Right, mm(4)));
        let past = |edges| JoinFinding::Past { edges, most };
        every!(JoinFinding:
            JoinFinding::TurnedOver => [JoinFinding::TurnedOver],
            JoinFinding::Misses(_) => [JoinFinding::Misses(mm(5))],
            JoinFinding::NoRoom { .. } => [JoinFinding::NoRoom {
                margin: Length::sixty_fourths(8),
            }],
            JoinFinding::Past { .. } => [past(vec![right]), past(Vec::new())],
        )
    }

    pub(crate) fn reach(&self) -> Vec<ReachFinding> {
        let all = [Edge::Left, Edge::Right, Edge::Top, Edge::Bottom];
        let edges: Vec<_> = all.map(|edge| (edge, mm(13))).to_vec();
        let reach = |past, across: &[LineId], fits, in_rectangle| Reach {
            of: Reacher::Layer(self.layer),
            past,
            edges: edges[..1].to_vec(),
            most: mm(13),
            across: across.to_vec(),
            fits,
            in_rectangle,
            at: None,
        };
        let fits = Some(size(97, 204));
        every!(Past:
            Past::Panel => [Past::Panel],
            Past::Card => [Past::Card],
            Past::Fold => [Past::Fold],
        );
        let mut all: Vec<_> = [Past::Panel, Past::Card, Past::Fold]
            .into_iter()
            .flat_map(|past| {
                [
                    reach(past, &[], fits, true),
                    reach(past, &[self.score], fits, false),
                    reach(past, &[self.score, self.crease], None, true),
                ]
            })
            .collect();
        let round = Reach {
            edges: edges.clone(),
            ..reach(Past::Card, &[], None, true)
        };
        let flaps = [None, fits].map(|fits| Reach {
            of: Reacher::Panel(self.tab),
            ..reach(Past::Card, &[], fits, true)
        });
        all.push(round);
        all.extend(flaps);
        let told = all.into_iter().map(|reach| ReachFinding {
            on: match reach.of {
                Reacher::Layer(_) => Some(self.faces[1]),
                Reacher::Panel(_) => None,
            },
            reach,
            finished: size(113, 210),
        });
        told.collect()
    }

    pub(crate) fn glue(&self) -> Vec<GlueFinding> {
        every!(GlueFinding:
            GlueFinding::NoRoom { .. } => [GlueFinding::NoRoom { margin: mm(3) }],
            GlueFinding::OffItsBack => [GlueFinding::OffItsBack],
            GlueFinding::Across(_) => [GlueFinding::Across(self.score)],
            GlueFinding::Ties { .. } => [GlueFinding::Ties {
                carrier: self.panels[0],
                other: self.panels[1],
            }],
            GlueFinding::PastItsSeat => [GlueFinding::PastItsSeat],
        )
    }

    pub(crate) fn cramped(&self) -> [Cramped; 2] {
        let panel = Contents::Panel(self.panels[2]);
        [panel, Contents::Layer(self.layer)].map(|what| Cramped {
            what,
            gap: Length::hundredths_mm(40),
            asked: Length::microns(1100),
            between: [self.panels[0], self.panels[1]],
        })
    }
}
