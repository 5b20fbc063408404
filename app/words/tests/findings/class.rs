//! Everything there is to say of a class of makers, and of post.

use foldwright_engine::envelope::EnvelopeName;
use foldwright_engine::length::Length;
use foldwright_engine::paper::{Country, LetterClass, Mail, Mass, Past};
use foldwright_words::OfClass;

/// What is a sentence, or several.
pub(crate) fn sentences() -> Vec<OfClass<'static>> {
    let mail = Mail {
        length: Length::mm(229),
        height: Length::mm(162),
        thickness: Length::microns(1234),
        uneven: Length::microns(500),
        mass: Mass::from_micrograms(23_450_000),
    };
    let weighs = [(1, false), (24, false), (1, true), (24, true)];
    let weighs = weighs.map(|(cards, is_made)| OfClass::Weighs {
        envelope: if is_made {
            "kraft 120 g"
        } else {
            "C5 (162 × 229 mm)"
        },
        is_made,
        mail,
        cards,
    });
    let doubts = Country::ALL.into_iter().flat_map(|country| {
        let doubts = country.doubts().iter();
        doubts.map(move |doubt| OfClass::Doubt(country, *doubt))
    });
    let varies = OfClass::Varies(Length::microns(870));
    let costs = [false, true].map(|with_supplies| OfClass::AllCosts {
        all: "12.50",
        each: "0.52",
        with_supplies,
    });
    let sources = Country::ALL.map(OfClass::Source);
    let past = past().into_iter();
    let past = past.map(|past| OfClass::Past(Country::Germany, past));
    let in_ounces = Past::Heavy(Mass::from_micrograms(99_223_330));
    let in_inches = [Past::Thick(Length::sixty_fourths(16)), in_ounces];
    let in_inches = in_inches.map(|past| OfClass::Past(Country::UnitedStates, past));
    let bounds = [
        OfClass::OneTo(99_999),
        OfClass::UpTo(999),
        OfClass::LargestOnly(12),
        OfClass::BuyAll("23.40"),
        OfClass::AtLeast(11),
        OfClass::Planned {
            sheets: 12,
            cuts: 30,
            settings: 4,
        },
    ];
    let adhesive = [1, 24].map(|cards| OfClass::Adhesive {
        each: i128::from(Length::mm(1).units()).pow(2) * 12_340,
        cards,
    });
    let run = [1, 24].map(|cards| OfClass::GlueRun {
        each: Length::mm(470),
        cards,
    });
    let all = weighs.into_iter().chain(costs).chain(bounds);
    let all = all.chain(adhesive).chain(run).chain(doubts);
    let all = all.chain([varies]);
    let made = [EnvelopeName::About, EnvelopeName::Glue].map(OfClass::Envelope);
    let all = all.chain(sources).chain(past).chain(in_inches);
    all.chain(made).collect()
}

/// What is a label.
pub(crate) fn labels() -> Vec<OfClass<'static>> {
    let on_hand = [(0, 3), (12, 0)].map(|(sheets, short)| OfClass::OnHand { sheets, short });
    let in_stock = [None, Some("25")].map(|short| OfClass::InStock {
        on_hand: "12",
        short,
    });
    let used = OfClass::Used {
        name: "glass gems",
        all: "72",
        on_hand: "100",
    };
    let scraps = [(1, true), (2, true), (1, false), (12, false)];
    let scraps = scraps.map(|(count, are_used)| OfClass::Scraps {
        count,
        paper: "Linen card 240 g",
        size: "148 × 105 mm",
        are_used,
    });
    let to_buy = [
        (false, None),
        (true, None),
        (false, Some("9.00")),
        (true, Some("9.00")),
    ];
    let to_buy = to_buy.map(|(are_rolls, costs)| OfClass::ToBuy {
        packs: 2,
        are_rolls,
        costs,
    });
    let besides = [1, 12].map(OfClass::Besides);
    let size = "148 × 105 mm";
    let buttons = [OfClass::Fewer(size), OfClass::More(size)];
    let scraps = scraps.into_iter().chain(besides).chain(buttons);
    let on_hand = on_hand.into_iter().chain(in_stock).chain([used]);
    let on_hand = on_hand.chain(scraps);
    on_hand
        .chain([OfClass::Costs("3.20")])
        .chain(to_buy)
        .chain([OfClass::EachAndAll {
            each: "3",
            all: "72",
        }])
        .chain([OfClass::MadeOf("kraft 120 g")])
        .chain(envelopes().into_iter().map(OfClass::Envelope))
        .collect()
}

/// What of an envelope made for a card is called, in a few words.
fn envelopes() -> Vec<EnvelopeName<'static>> {
    every!(EnvelopeName<'_>:
        EnvelopeName::Recipe(_) => [EnvelopeName::Recipe("Boat")],
        EnvelopeName::About => [],
        EnvelopeName::Glue => [],
        EnvelopeName::LeftFlap => [EnvelopeName::LeftFlap],
        EnvelopeName::AddressSide => [EnvelopeName::AddressSide],
        EnvelopeName::RightFlap => [EnvelopeName::RightFlap],
        EnvelopeName::LowerFold => [EnvelopeName::LowerFold],
        EnvelopeName::UpperFold => [EnvelopeName::UpperFold],
        EnvelopeName::CardLength => [EnvelopeName::CardLength],
        EnvelopeName::CardHeight => [EnvelopeName::CardHeight],
        EnvelopeName::RoomLong => [EnvelopeName::RoomLong],
        EnvelopeName::RoomHigh => [EnvelopeName::RoomHigh],
        EnvelopeName::Seam => [EnvelopeName::Seam],
        EnvelopeName::Slant => [EnvelopeName::Slant],
        EnvelopeName::Height => [EnvelopeName::Height],
        EnvelopeName::LowerFlap => [EnvelopeName::LowerFlap],
        EnvelopeName::UpperFlap => [EnvelopeName::UpperFlap],
        EnvelopeName::FlatWidth => [EnvelopeName::FlatWidth],
        EnvelopeName::FlatHeight => [EnvelopeName::FlatHeight],
        EnvelopeName::Edge => [EnvelopeName::Edge],
        EnvelopeName::RightFold => [EnvelopeName::RightFold],
        EnvelopeName::UpperFoldAt => [EnvelopeName::UpperFoldAt],
    )
}

/// What posts and their classes are called, which is the same in each language
/// where it is no word of it.
pub(crate) fn called() -> Vec<OfClass<'static>> {
    let classes = every!(LetterClass:
        LetterClass::UsLetter => [LetterClass::UsLetter],
        LetterClass::UsByHand => [LetterClass::UsByHand],
        LetterClass::UsLarge => [LetterClass::UsLarge],
        LetterClass::CaStandard => [LetterClass::CaStandard],
        LetterClass::CaOther => [LetterClass::CaOther],
        LetterClass::UkLetter => [LetterClass::UkLetter],
        LetterClass::UkLarge => [LetterClass::UkLarge],
        LetterClass::DeStandard => [LetterClass::DeStandard],
        LetterClass::DeCompact => [LetterClass::DeCompact],
        LetterClass::DeLarge => [LetterClass::DeLarge],
        LetterClass::AuSmall => [LetterClass::AuSmall],
        LetterClass::AuLarge => [LetterClass::AuLarge],
    );
    let classes = classes.into_iter().map(Some).chain([None]);
    let countries = Country::ALL.map(OfClass::Country);
    countries
        .into_iter()
        .chain(classes.map(OfClass::Letter))
        .collect()
}

fn past() -> Vec<Past> {
    every!(Past:
        Past::Long(_) => [Past::Long(Length::mm(235))],
        Past::High(_) => [Past::High(Length::mm(125))],
        Past::Short(_) => [Past::Short(Length::mm(140))],
        Past::Low(_) => [Past::Low(Length::mm(90))],
        Past::Thick(_) => [Past::Thick(Length::mm(5))],
        Past::Uneven(_) => [Past::Uneven(Length::mm(6))],
        Past::Heavy(_) => [Past::Heavy(Mass::from_micrograms(249_999_999))],
        Past::Square(_) => [Past::Square(14)],
        Past::Slim(_) => [Past::Slim(25)],
    )
}
