//! Classes and post, in English.

use foldwright_engine::envelope::EnvelopeName;
use foldwright_engine::paper::{Country, Doubt, LetterClass, Mail, Past};
use foldwright_gathered::gathered;

use super::{OfClass, area, limit};
use crate::names::Names;

#[gathered]
pub(crate) fn told(names: &Names<'_>, of: OfClass<'_>) -> String {
    match of {
        OfClass::OnHand { sheets, short: 0 } => format!("{sheets} on hand"),
        OfClass::OnHand { sheets, short } => format!("{sheets} on hand, {short} short"),
        OfClass::InStock {
            on_hand,
            short: None,
        } => format!("{on_hand} on hand"),
        OfClass::InStock {
            on_hand,
            short: Some(short),
        } => format!("{on_hand} on hand, {short} short"),
        OfClass::Used { name, all, on_hand } => format!("{all} of {name}: {on_hand} on hand"),
        OfClass::Scraps {
            count,
            paper,
            size,
            are_used,
        } => match (count, are_used) {
            (1, true) => format!("1 scrap of {paper}, {size}, used"),
            (count, true) => format!("{count} scraps of {paper}, {size}, used"),
            (1, false) => format!("1 offcut of {paper}, {size}, to keep"),
            (count, false) => format!("{count} offcuts of {paper}, {size}, to keep"),
        },
        OfClass::Besides(1) => "and 1 scrap".to_owned(),
        OfClass::Besides(count) => format!("and {count} scraps"),
        OfClass::Fewer(size) => format!("One scrap of {size} fewer"),
        OfClass::More(size) => format!("One scrap of {size} more"),
        OfClass::OneTo(most) => format!("Type a whole number from 1 to {most}."),
        OfClass::UpTo(most) => format!("Type a number above 0 and up to {most}."),
        OfClass::LargestOnly(most) => format!(
            "The plan uses the {most} largest sizes of scraps and passes over smaller ones."
        ),
        OfClass::Planned {
            sheets,
            cuts,
            settings,
        } => format!("New sheets: {sheets}. Cuts: {cuts}. Settings of the fence: {settings}."),
        OfClass::AtLeast(sheets) => {
            format!("It is proven that at least {sheets} new sheets are needed.")
        }
        OfClass::Adhesive { each, cards } => {
            let one = area(names, each);
            match cards {
                1 => format!("Adhesive covers about {one} behind the layers."),
                cards => {
                    let all = area(names, each * i128::from(cards));
                    format!(
                        "Adhesive covers about {one} behind the layers of a card, {all} in all."
                    )
                }
            }
        }
        OfClass::GlueRun { each, cards: 1 } => format!(
            "Once round the edge of that, a tape or a line of glue is about {} long.",
            names.short(each)
        ),
        OfClass::GlueRun { each, cards } => format!(
            "Once round the edge of that, a tape or a line of glue is about {} long, {} in all.",
            names.short(each),
            names.short(each * i64::from(cards))
        ),
        OfClass::EachAndAll { each, all } => format!("{each} a card, {all} in all"),
        OfClass::Costs(amount) => format!("costs {amount}"),
        OfClass::AllCosts {
            all,
            each,
            with_supplies: false,
        } => format!("The paper costs {all} in all, which is {each} a card."),
        OfClass::AllCosts { all, each, .. } => {
            format!("Paper and all besides cost {all}, which is {each} a card.")
        }
        OfClass::ToBuy {
            packs,
            are_rolls,
            costs,
        } => match (are_rolls, costs) {
            (false, None) => format!("packs to buy: {packs}"),
            (false, Some(costs)) => format!("packs to buy: {packs} for {costs}"),
            (true, None) => format!("rolls to buy: {packs}"),
            (true, Some(costs)) => format!("rolls to buy: {packs} for {costs}"),
        },
        OfClass::BuyAll(costs) => {
            format!("What is to buy costs {costs}, as far as its price is known.")
        }
        OfClass::Weighs {
            envelope,
            is_made,
            mail,
            cards,
        } => weighs(names, (envelope, is_made), mail, cards),
        OfClass::Country(country) => match country {
            Country::UnitedStates => "United States",
            Country::Canada => "Canada",
            Country::UnitedKingdom => "United Kingdom",
            Country::Germany => "Germany",
            Country::Australia => "Australia",
        }
        .to_owned(),
        OfClass::Letter(class) => letter(class).to_owned(),
        OfClass::Past(country, past) => self::past(names, country, past),
        OfClass::Doubt(country, doubt) => self::doubt(country, doubt).to_owned(),
        OfClass::Varies(by) => format!(
            "Away from its edges, the paper of the closed card varies in thickness by about {}.",
            names.tenths(by)
        ),
        OfClass::MadeOf(paper) => format!("Made of {paper}"),
        OfClass::Source(country) => source(country).to_owned(),
        OfClass::Envelope(EnvelopeName::Recipe(card)) => format!("Envelope for “{card}”"),
        OfClass::Envelope(of) => envelope(of).to_owned(),
    }
}

/// What of an envelope is called so whatever its card is called.
#[gathered]
fn envelope(of: EnvelopeName<'_>) -> &'static str {
    match of {
        EnvelopeName::Recipe(_) => "Envelope",
        EnvelopeName::About => {
            "Fold the side flaps in, then the lower flap up over them, and glue it to them. \
             The upper flap closes it."
        }
        EnvelopeName::Glue => {
            "Spread glue along both ends of the lower flap, no wider than the seam. Fold the \
             flap up and press it onto the side flaps. Keep glue out of the inside."
        }
        EnvelopeName::LeftFlap => "left flap",
        EnvelopeName::AddressSide => "address side",
        EnvelopeName::RightFlap => "right flap",
        EnvelopeName::LowerFold => "fold of the lower flap",
        EnvelopeName::UpperFold => "fold of the upper flap",
        EnvelopeName::CardLength => "card, long side",
        EnvelopeName::CardHeight => "card, short side",
        EnvelopeName::RoomLong => "clearance, long side",
        EnvelopeName::RoomHigh => "clearance, short side",
        EnvelopeName::Seam => "seam width",
        EnvelopeName::Slant => "slant of the flaps",
        EnvelopeName::Height => "envelope height",
        EnvelopeName::LowerFlap => "lower flap height",
        EnvelopeName::UpperFlap => "upper flap height",
        EnvelopeName::FlatWidth => "flat width",
        EnvelopeName::FlatHeight => "flat height",
        EnvelopeName::Edge => "left and lower edge",
        EnvelopeName::RightFold => "right fold from the left",
        EnvelopeName::UpperFoldAt => "upper fold from the bottom",
    }
}

#[gathered]
fn weighs(names: &Names<'_>, (envelope, is_made): (&str, bool), mail: Mail, cards: u32) -> String {
    let (one, thick) = (names.grams(mail.mass), names.tenths(mail.thickness));
    match (cards, is_made) {
        (1, false) => {
            format!("In {envelope}, the card weighs about {one} and is about {thick} thick.")
        }
        (cards, false) => format!(
            "In {envelope}, a card weighs about {one} and is about {thick} thick. All {cards} weigh \
             about {}.",
            names.grams(mail.mass.times(cards))
        ),
        (1, true) => format!(
            "In an envelope made for it of {envelope}, the card weighs about {one} and is about \
             {thick} thick."
        ),
        (cards, true) => format!(
            "In an envelope made for it of {envelope}, a card weighs about {one} and is about \
             {thick} thick. All {cards} weigh about {}.",
            names.grams(mail.mass.times(cards))
        ),
    }
}

#[gathered]
fn doubt(country: Country, doubt: Doubt) -> &'static str {
    match (country, doubt) {
        (Country::Australia, Doubt::Stiff) => "Letters bend: a stiff one goes as a parcel.",
        (_, Doubt::Stiff) => {
            "What does not bend easily round a drum of 11 in is sorted by hand, which costs more."
        }
        (_, Doubt::Lumps) => {
            "Contents that make it uneven, such as coins or keys, or lie loose in it cost more."
        }
        (_, Doubt::Closures) => "Clasps, strings and buttons that close it cost more.",
    }
}

#[gathered]
fn letter(class: Option<LetterClass>) -> &'static str {
    match class {
        Some(LetterClass::UsLetter) => "letter",
        Some(LetterClass::UsByHand) => "letter sorted by hand (nonmachinable), which costs more",
        Some(LetterClass::UsLarge) => "large envelope, if it bends",
        Some(LetterClass::CaStandard) => "standard lettermail",
        Some(LetterClass::CaOther) => "other lettermail",
        Some(LetterClass::UkLetter) => "letter",
        Some(LetterClass::UkLarge | LetterClass::AuLarge) => "large letter",
        Some(LetterClass::DeStandard) => "Standardbrief",
        Some(LetterClass::DeCompact) => "Kompaktbrief",
        Some(LetterClass::DeLarge) => "Großbrief",
        Some(LetterClass::AuSmall) => "small letter",
        None => "no letter; ask about parcels",
    }
}

#[gathered]
fn past(names: &Names<'_>, country: Country, past: Past) -> String {
    let limit = limit(country, past, names.decimal());
    match past {
        Past::Long(_) => format!("The envelope is longer than {limit}."),
        Past::High(_) => format!("The envelope is higher than {limit}."),
        Past::Short(_) => format!("The envelope is shorter than {limit}."),
        Past::Low(_) => format!("The envelope is lower than {limit}."),
        Past::Thick(_) => format!("The filled envelope is thicker than {limit}."),
        Past::Uneven(_) => {
            format!("The filled envelope varies in thickness by more than {limit}.")
        }
        Past::Heavy(_) => format!("The filled envelope is heavier than {limit}."),
        Past::Square(_) => format!(
            "The envelope is too near to a square: less than {limit} times as long as high."
        ),
        Past::Slim(_) => {
            format!("The envelope is slim: more than {limit} times as long as high.")
        }
    }
}

#[gathered]
fn source(country: Country) -> &'static str {
    match country {
        Country::UnitedStates => "Source: Domestic Mail Manual 101 and 201, page of 9 July 2023.",
        Country::Canada => {
            "Source: lettermail guide of 11 January 2021. By a notice of 2008 squares cost more."
        }
        Country::UnitedKingdom => "Source: the regulator's page; in force since 21 August 2006.",
        Country::Germany => "Source: a newspaper's table of 12 February 2025.",
        Country::Australia => "Source: the post's page of letters, with changes of 1 July 2025.",
    }
}
