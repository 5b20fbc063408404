//! The work step by step, in German.

use foldwright_engine::draw::letter;
use foldwright_engine::paper::StockSide;
use foldwright_engine::plane::Turn;
use foldwright_engine::recipe::{Face, Fold, Side, StripId};
use foldwright_engine::steps::{Instruction, Kind, Move, Off, Title};
use foldwright_gathered::gathered;

use crate::cutting::de as cutting;
use crate::names::{Called, Names};
use crate::nouns::de::{self as nouns, Case};
use crate::told::sentence;

#[gathered]
pub(crate) fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Gather => "Bereitlegen",
        Kind::Cut => "Schneiden",
        Kind::Score => "Rillen",
        Kind::Fold => "Falzen",
        Kind::Decorate => "Gestalten",
        Kind::Glue => "Kleben",
        Kind::Insert => "Einlegen",
        Kind::Dry => "Trocknen",
        Kind::Envelope => "Umschlag",
        Kind::Own => "Eigener Schritt",
    }
}

#[gathered]
pub(crate) fn title(names: &Names<'_>, title: &Title) -> String {
    sentence(match *title {
        Title::Gather => "Papier bereitlegen".to_owned(),
        Title::CutAt(fence) => format!("Bei {} schneiden", names.short(fence)),
        Title::Check(part) => format!("{} prüfen", nouns::part(names, part, Case::Accusative)),
        Title::Cut(part) => format!("{} zuschneiden", nouns::part(names, part, Case::Accusative)),
        Title::Trim { part, to } => format!(
            "{} auf {} beschneiden",
            nouns::part(names, part, Case::Accusative),
            names.short_size(to)
        ),
        Title::CutOut(id) => format!("{} schneiden", nouns::cutout(names, id)),
        Title::CutLine(id) => format!("{} schneiden", nouns::line(names, id, Case::Accusative)),
        Title::Score { of, up: None } => {
            format!("{} rillen", nouns::strip(names, of, Case::Accusative))
        }
        Title::Score { of, up: Some(up) } => format!(
            "{} rillen, {} oben",
            nouns::strip(names, of, Case::Accusative),
            nouns::side(of, up)
        ),
        Title::ScoreLine(id) => format!("{} rillen", nouns::line(names, id, Case::Accusative)),
        Title::Fold { line, more } => match (names.line(line), more) {
            (Some(Called::Score(at)), 0) => format!("Bei {} falzen", names.short(at)),
            (Some(Called::Score(at)), 1) => {
                format!(
                    "Bei {} und einer weiteren Linie zugleich falzen",
                    names.short(at)
                )
            }
            (Some(Called::Score(at)), more) => {
                let at = names.short(at);
                format!("Bei {at} und {more} weiteren Linien zugleich falzen")
            }
            (_, 0) => format!("{} falzen", nouns::line(names, line, Case::Accusative)),
            (_, 1) => {
                let line = nouns::line(names, line, Case::Accusative);
                format!("{line} und eine weitere zugleich falzen")
            }
            (_, more) => {
                let line = nouns::line(names, line, Case::Accusative);
                format!("{line} und {more} weitere zugleich falzen")
            }
        },
        Title::Close => "Die Karte schließen".to_owned(),
        Title::FoldPiece(id) => format!("{} falzen", nouns::piece(names, id)),
        Title::Decorate(id) => format!("{} gestalten", nouns::layer(names, id)),
        Title::Glue(id, on) => format!(
            "{} auf {} kleben",
            nouns::layer(names, id),
            nouns::seat(names, on, Case::Accusative)
        ),
        Title::LayOn(id, on) => format!(
            "{} ohne Kleber auf {} legen",
            nouns::layer(names, id),
            nouns::seat(names, on, Case::Accusative)
        ),
        Title::GlueIn { part, of, on } => format!(
            "{} von {} auf {} kleben",
            nouns::panel(names, part),
            nouns::piece(names, of),
            nouns::face(names, on, Case::Accusative)
        ),
        Title::Dry => "Trocknen lassen".to_owned(),
        Title::Envelope => "Den Umschlag suchen".to_owned(),
        Title::Own(id) => names.own_step(id).to_owned(),
    })
}

#[gathered]
pub(crate) fn does(names: &Names<'_>, does: &Instruction) -> String {
    let length = |of| names.short(of);
    let size = |of| names.short_size(of);
    let layer = |id| nouns::layer(names, id);
    let panel = |id| nouns::panel(names, id);
    let genitive = |of| nouns::strip(names, of, Case::Genitive);
    let accusative = |of| nouns::strip(names, of, Case::Accusative);
    let seen = |id| nouns::side(names.strip_with(id), Side::A);
    sentence(match *does {
        Instruction::Batch(copies) => {
            format!("Das ist für {copies} Karten. Mach jeden Schritt erst für alle.")
        }
        Instruction::OwnSheets => {
            "Mehr Bogen braucht es nicht: Jeder Zuschnitt ist für sich gerechnet.".to_owned()
        }
        Instruction::SharedSheets => {
            "Bogen werden geteilt, wo das Papier spart. Schneide Schritt für Schritt, und leg \
             Streifen für später beiseite."
                .to_owned()
        }
        Instruction::SetFence(fence) => format!(
            "Stell den Anschlag {} weit vom Messer. Miss von der Kante am Anschlag aus.",
            length(fence)
        ),
        Instruction::Take {
            stock,
            what,
            count,
            edge,
            turned,
        } => {
            let stock = nouns::stock(names, stock);
            let what = cutting::taken(names, what, count, &stock);
            format!("{what} {}", cutting::at_fence(names, edge, turned))
        }
        Instruction::CutTimes { times, stack } => cutting::times(times, stack),
        Instruction::Falls {
            number,
            count,
            what,
        } => cutting::falls(names, &letter(number), count, what),
        Instruction::AlsoFor { number, part } => format!(
            "{} ist auch für {}.",
            letter(number),
            nouns::part(names, part, Case::Accusative)
        ),
        Instruction::MeasureAcross(part) => format!(
            "Miss {} von Kante zu Kante nach, bevor du weiterschneidest.",
            nouns::part(names, part, Case::Accusative)
        ),
        Instruction::WholeSheet(part, stock) => format!(
            "{} ist ein ganzer Bogen {}: Nichts wird abgeschnitten.",
            nouns::part(names, part, Case::Nominative),
            nouns::stock(names, stock)
        ),
        Instruction::LayPiece(part, lies) => {
            cutting::lay_piece(lies, &nouns::part(names, part, Case::Accusative))
        }
        Instruction::LaySheet { lies, side } => cutting::lay_sheet(lies, &length(side)),
        Instruction::MeasureFromCorner(part) => format!(
            "Miss {} von einer rechtwinkligen Ecke des Bogens aus.",
            nouns::part(names, part, Case::Accusative)
        ),
        Instruction::CutAt { part, left, top } => format!(
            "Schneide {} {} von der linken und {} von der oberen Kante des Bogens aus. Dann ist \
             der gewählte Teil des Drucks zu sehen.",
            nouns::part(names, part, Case::Accusative),
            length(left),
            length(top)
        ),
        Instruction::CutStrip { of, size: is, runs } => {
            cutting::cut_strip(&accusative(of), &size(is), runs)
        }
        Instruction::LiesThere {
            of,
            up,
            first: Some(first),
            at,
        } => format!(
            "So, wie {} liegt, ist die {} oben und {} {}.",
            nouns::strip(names, of, Case::Nominative),
            nouns::side(of, up),
            panel(first),
            nouns::edge(at)
        ),
        Instruction::LiesThere {
            of,
            up,
            first: None,
            at,
        } => format!(
            "So, wie {} liegt, ist die {} oben und die linke Kante {}.",
            nouns::strip(names, of, Case::Nominative),
            nouns::side(of, up),
            nouns::edge(at)
        ),
        Instruction::Outside(of, StockSide::Face) => format!(
            "Die Schauseite des Papiers wird die {} {}.",
            nouns::side(of, Side::B),
            genitive(of)
        ),
        Instruction::Outside(of, StockSide::Back) => format!(
            "Die Rückseite des Papiers wird die {} {}.",
            nouns::side(of, Side::B),
            genitive(of)
        ),
        Instruction::CutLayer(id, stock) => {
            format!("Schneide {} aus {}.", layer(id), nouns::stock(names, stock))
        }
        Instruction::UpPrint(id) => {
            format!("Die Höhe von {} läuft in Richtung des Drucks.", layer(id))
        }
        Instruction::TopLies(id, at) => format!(
            "So, wie {} liegt, ist die obere Kante {}.",
            layer(id),
            nouns::edge(at)
        ),
        Instruction::RectangleFirst(id) => {
            format!(
                "Schneide {} zuerst als Rechteck in dieser Größe.",
                layer(id)
            )
        }
        Instruction::Shape(id, form) => cutting::shape(names, &layer(id), form),
        Instruction::MeasureFlat(of) => format!(
            "Leg {} mit der {} nach oben. Miss von der linken und der unteren Kante aus.",
            accusative(of),
            nouns::side(of, Side::A)
        ),
        Instruction::DrawWindow(id, on) => {
            let window = nouns::cutout(names, id);
            format!("Zeichne {window} nach den Maßen auf {}.", panel(on))
        }
        Instruction::CutWindow(id, form) => cutting::window(names, &nouns::cutout(names, id), form),
        Instruction::MeasureRadius(id) => {
            format!(
                "Miss den Radius von der Ecke von {} aus an beiden Kanten.",
                panel(id)
            )
        }
        Instruction::RoundCorners {
            panel: id,
            which,
            radius,
        } => cutting::round_corners(&panel(id), which, &length(radius)),
        Instruction::MeasureDepth(id, side) => cutting::measure_depth(&panel(id), seen(id), side),
        Instruction::CutEdge {
            panel: id,
            runs,
            depth,
        } => cutting::cut_edge(&panel(id), runs, &length(depth)),
        Instruction::ScoreBetween(id) => format!(
            "Markiere beide Enden {}, leg ein Lineal an, und rille dazwischen.",
            nouns::line(names, id, Case::Genitive)
        ),
        Instruction::Becomes(id, of, Fold::Mountain) => format!(
            "{} wird ein Bergfalz, auf der {} gesehen.",
            nouns::line(names, id, Case::Nominative),
            nouns::side(of, Side::A)
        ),
        Instruction::Becomes(id, of, Fold::Valley) => format!(
            "{} wird ein Talfalz, auf der {} gesehen.",
            nouns::line(names, id, Case::Nominative),
            nouns::side(of, Side::A)
        ),
        Instruction::CutBetween(id) => format!(
            "Markiere beide Enden {}. Schneide auf der Schneidematte am Lineal.",
            nouns::line(names, id, Case::Genitive)
        ),
        Instruction::MeasureFromFence(of) => {
            format!("Miss jede Rille {} vom Anschlag aus.", genitive(of))
        }
        Instruction::Between(of, Move::Over) => {
            format!("Wende {}, dieselbe Kante am Anschlag.", accusative(of))
        }
        Instruction::Between(of, Move::EndForEnd) => {
            format!("Wende {}, die andere Kante am Anschlag.", accusative(of))
        }
        Instruction::Between(of, Move::HalfRound) => format!(
            "Dreh {} auf dem Tisch halb herum, die andere Kante am Anschlag.",
            accusative(of)
        ),
        Instruction::Between(of, Move::Stay) => {
            format!("Lass {} so liegen.", accusative(of))
        }
        Instruction::AtFence {
            of,
            up,
            panel: id,
            long: false,
        } => format!(
            "Leg {} mit der {} nach oben, die kurze Kante von {} am Anschlag.",
            accusative(of),
            nouns::side(of, up),
            panel(id)
        ),
        Instruction::AtFence {
            of,
            up,
            panel: id,
            long: true,
        } => format!(
            "Leg {} mit der {} nach oben, die lange Kante von {} am Anschlag.",
            accusative(of),
            nouns::side(of, up),
            panel(id)
        ),
        Instruction::Head(Turn::None) => "Der Druck steht aufrecht.".to_owned(),
        Instruction::Head(Turn::Left) => "Der Kopf des Drucks zeigt nach links.".to_owned(),
        Instruction::Head(Turn::Half) => "Der Fuß des Drucks zeigt von dir weg.".to_owned(),
        Instruction::Head(Turn::Right) => "Der Kopf des Drucks zeigt nach rechts.".to_owned(),
        Instruction::ScoreAt(at) => format!("Rille bei {}.", length(at)),
        Instruction::Find(id) => match names.line(id) {
            Some(Called::Score(at)) => format!(
                "Such die Rille {} von der linken Kante des Kartenrohlings, Innenseite oben.",
                length(at)
            ),
            _ => format!(
                "Such {}, die Innenseite des Kartenrohlings oben.",
                nouns::line(names, id, Case::Accusative)
            ),
        },
        Instruction::FoldOver(rests) => format!(
            "Klapp die Karte an dieser Linie um. {} bleibt flach auf dem Tisch.",
            panel(rests)
        ),
        Instruction::FoldUnder => {
            "Wende die Karte, klapp sie an dieser Linie um, und wende sie zurück.".to_owned()
        }
        Instruction::OneLine => {
            "Die genannten Falzlinien liegen jetzt auf einer Linie, Lage auf Lage.".to_owned()
        }
        Instruction::FoldAllOver(rests) => format!(
            "Klapp alle Lagen an dieser Linie um. {} bleibt flach auf dem Tisch.",
            panel(rests)
        ),
        Instruction::FoldAllUnder => {
            "Wende die Karte, klapp alle Lagen an dieser Linie um, und wende die Karte zurück."
                .to_owned()
        }
        Instruction::PressFold => {
            "Streich den Falz mit dem Falzbein von der Mitte nach außen nach.".to_owned()
        }
        Instruction::HeavyPaper => {
            "Schweres Papier lässt sich nur an der Rille sauber falzen.".to_owned()
        }
        Instruction::StartEach => {
            "Falze jede Linie wie aufgeführt an, von innen gesehen.".to_owned()
        }
        Instruction::CloseSlowly => {
            "Schließ dann langsam die Karte, und hilf den Falzen nach; sie schließen alle \
             zugleich."
                .to_owned()
        }
        Instruction::PressShut => "Streich dann die Falze mit dem Falzbein nach.".to_owned(),
        Instruction::FoldEach(id) => format!(
            "Falze jede Linie von {} wie aufgeführt, von vorn gesehen.",
            nouns::piece(names, id)
        ),
        Instruction::PressFolds(id) => format!(
            "Streich die Falze von {} mit dem Falzbein nach.",
            nouns::piece(names, id)
        ),
        Instruction::DecorateNow(id) => format!(
            "Bestemple, bemale oder präge {} jetzt, solange alles flach liegt, und lass es trocknen.",
            layer(id)
        ),
        Instruction::MeasureSeat(on) => format!(
            "Miss auf {} von der linken und der unteren Kante aus.",
            nouns::seat(names, on, Case::Dative)
        ),
        Instruction::TurnLikePage(id) => format!(
            "Wende {} wie eine Buchseite, und gib Kleber nur, wo er gezeigt ist.",
            layer(id)
        ),
        Instruction::GlueAcross { left, right } => format!(
            "Bleib mit dem Kleber {} von der linken und {} von der rechten Kante weg.",
            length(left),
            length(right)
        ),
        Instruction::GlueUp { top, bottom } => format!(
            "Bleib auch {} von der oberen und {} von der unteren Kante weg.",
            length(top),
            length(bottom)
        ),
        Instruction::KeepToShape => "Halt dich an die gezeigte Form.".to_owned(),
        Instruction::NowhereToGlue(id) => format!(
            "Auf der Rückseite von {} ist Kleber nirgends sicher.",
            layer(id)
        ),
        Instruction::GlueSpoils(id) => format!(
            "Kleber verdirbt hier die Karte: Lies zuerst, was das Rezept zu {} sagt.",
            layer(id)
        ),
        Instruction::SetDown(id) => format!(
            "Leg {} an die Stelle, und streich von der Mitte nach außen fest.",
            layer(id)
        ),
        Instruction::SetLoose(id) => format!("Leg {} ohne Kleber an die Stelle.", layer(id)),
        Instruction::MeasureCarrier(of) => format!(
            "Miss beide Punkte von der linken und der unteren Kante {} aus, die {} oben.",
            genitive(of),
            nouns::side(of, Side::A)
        ),
        Instruction::DrawLine(on) => format!(
            "Zieh auf {} mit Bleistift eine feine Linie vom ersten Punkt zum zweiten.",
            nouns::face(names, on, Case::Dative)
        ),
        Instruction::Spread { panel, side } => format!(
            "Gib Kleber auf {}.",
            nouns::face(names, Face { panel, side }, Case::Accusative)
        ),
        Instruction::LayCrease(id) => format!(
            "Leg den Falz von {} an die Linie, vom ersten Punkt an, und drück fest an.",
            panel(id)
        ),
        Instruction::CloseOn(id) => format!(
            "Falze {} flach, schließ die Karte darüber, und drück fest.",
            nouns::piece(names, id)
        ),
        Instruction::PressDry => {
            "Schließ die Karte, und beschwer sie so lange, wie die Anleitung zum Kleber sagt."
                .to_owned()
        }
        Instruction::OpenOnce => {
            "Öffne die Karte einmal, bevor der Kleber fest ist, und prüf, ob nichts verklebt ist."
                .to_owned()
        }
        Instruction::GoesInto(envelope) => format!(
            "Die Karte passt in den Umschlag {}, {}.",
            nouns::envelope(envelope),
            names.envelope(envelope)
        ),
        Instruction::NoEnvelope => {
            "Mit dieser Zugabe passt kein gängiger Umschlag: Mach einen selbst, oder ändere sie."
                .to_owned()
        }
        Instruction::TryFirst => {
            "Probier die erste Karte im Umschlag, bevor du weitermachst.".to_owned()
        }
        Instruction::MeasureOff(part) => format!(
            "Miss {} von der Kante aus, an der du schneidest.",
            nouns::part(names, part, Case::Accusative)
        ),
        Instruction::CutAlready {
            part,
            pieces: 1,
            size: is,
        } => format!(
            "{} ist schon zugeschnitten, {}. Kein neues Papier.",
            nouns::part(names, part, Case::Nominative),
            size(is)
        ),
        Instruction::CutAlready {
            part,
            pieces,
            size: is,
        } => format!(
            "Für {} sind schon {pieces} Stück zugeschnitten, {}. Kein neues Papier.",
            nouns::part(names, part, Case::Accusative),
            size(is)
        ),
        Instruction::OffEnd {
            panel: id,
            off,
            stays,
        } => format!(
            "Schneide {} an der Kante von {} ab: Das Feld bleibt {} breit.",
            length(off),
            panel(id),
            length(stays)
        ),
        Instruction::OffTop(StripId::Base, off) => format!(
            "Schneide {} an der oberen Kante des Kartenrohlings ab, von innen gesehen.",
            length(off)
        ),
        Instruction::OffTop(StripId::Piece(id), off) => format!(
            "Schneide {} an der oberen Kante von {} ab, von vorn gesehen.",
            length(off),
            nouns::piece(names, id)
        ),
        Instruction::CutAgain(id, to) if to.width == to.height => format!(
            "Schneide {} noch einmal rund, {} im Durchmesser, um dieselbe Mitte.",
            layer(id),
            length(to.width)
        ),
        Instruction::CutAgain(id, to) => format!(
            "Schneide {} noch einmal oval, {}, um dieselbe Mitte.",
            layer(id),
            size(to)
        ),
        Instruction::OffStraight(id, off) => match off {
            Off::Width(width) => format!(
                "Schneide {} in der Breite von {} ab, an der geraden Kante: Die Rundung bleibt.",
                length(width),
                layer(id)
            ),
            Off::Height(height) => format!(
                "Schneide {} in der Höhe von {} ab, an der geraden Kante: Die Rundung bleibt.",
                length(height),
                layer(id)
            ),
            Off::Both(both) => format!(
                "Schneide von {} in der Breite {} und in der Höhe {} ab, nur an geraden Kanten.",
                layer(id),
                length(both.width),
                length(both.height)
            ),
        },
        Instruction::OffAny(id, off) => match off {
            Off::Width(width) => {
                format!(
                    "Schneide von {} in der Breite {} ab.",
                    layer(id),
                    length(width)
                )
            }
            Off::Height(height) => {
                format!(
                    "Schneide von {} in der Höhe {} ab.",
                    layer(id),
                    length(height)
                )
            }
            Off::Both(both) => format!(
                "Schneide von {} in der Breite {} und in der Höhe {} ab.",
                layer(id),
                length(both.width),
                length(both.height)
            ),
        },
        Instruction::CornersAgain(id, radius) => format!(
            "Runde die abgeschnittenen Ecken von {} wieder mit Radius {} ab.",
            layer(id),
            length(radius)
        ),
        Instruction::AnyEdge => {
            "Jede Kante ist recht. Soll ein Bild in der Mitte bleiben, schneide beidseits die \
             Hälfte ab."
                .to_owned()
        }
    })
}
