//! The trade's words in the languages lists are written in.
//!
//! From memory: the words workshops and pattern sheets use.

/// What kind of piece a word names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// The folded piece.
    Base,
    /// Card: the folded piece where nothing else is, or only the paper.
    Card,
    /// A strip.
    Strip,
    /// A mat.
    Mat,
    /// A focal piece.
    Focal,
    /// A loose sheet inside.
    Insert,
}

/// Where a layer is said to go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Spot {
    /// On the front.
    Front,
    /// Inside.
    Inside,
    /// On the back.
    Back,
}

/// What a number beside a word is, when it is no measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Aside {
    /// Money.
    Price,
    /// The number of a step, a page, a line.
    Numbering,
    /// So many of something.
    Count,
    /// The weight of paper.
    Weight,
    /// A day or a year.
    Date,
    /// A time.
    Time,
    /// Something measured otherwise: percent, degrees, dots.
    Other,
}

/// What a word tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sense {
    /// A piece.
    Piece(Kind),
    /// To score or to fold.
    Score,
    /// Folded: what follows is a score, or the size of the closed card.
    Folded,
    /// In the middle.
    Half,
    /// Every so far.
    Every,
    /// Between the two numbers of a size.
    By,
    /// Before a place.
    At,
    /// Before what something is cut from.
    From,
    /// Between two of a list.
    And,
    /// On something.
    On,
    /// The longer side.
    Long,
    /// The shorter side.
    Short,
    /// A mountain fold.
    Mountain,
    /// A valley fold.
    Valley,
    /// Panels, by their widths.
    Panel,
    /// A border.
    Border,
    /// The closed card.
    Finished,
    /// An envelope.
    Envelope,
    /// A sheet.
    Sheet,
    /// Where a layer goes.
    Spot(Spot),
    /// A number in words.
    Many(u32),
    /// Pieces, behind how many.
    Pieces,
    /// The card stands like a tent.
    Tent,
    /// The number beside it is no measure.
    Behind(Aside),
    /// The number after it is no measure.
    Before(Aside),
    /// Says nothing that matters here.
    Filler,
}

/// A language of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Language {
    English,
    German,
    French,
    Dutch,
    Spanish,
}

use Aside::{Count, Date, Numbering, Other, Price, Time, Weight};
use Kind::{Base, Card, Focal, Insert, Mat, Strip};
use Language::{Dutch, English, French, German, Spanish};
use Sense as S;

type Row = (Language, Sense, &'static str);

/// Words by language; the first that fits counts.
const TABLE: &[Row] = &[
    (English, S::Piece(Base), "base cardbase"),
    (
        German,
        S::Piece(Base),
        "grundkarte basis kartenbasis kartenrohling rohling",
    ),
    (French, S::Piece(Base), "socle"),
    (Dutch, S::Piece(Base), "basiskaart kaartbasis"),
    (Spanish, S::Piece(Base), "cuerpo"),
    (English, S::Piece(Card), "card"),
    (German, S::Piece(Card), "karte klappkarte faltkarte"),
    (French, S::Piece(Card), "carte"),
    (Dutch, S::Piece(Card), "kaart"),
    (Spanish, S::Piece(Card), "tarjeta"),
    (English, S::Piece(Strip), "strip strips"),
    (German, S::Piece(Strip), "streifen papierstreifen"),
    (French, S::Piece(Strip), "bande bandes"),
    (Dutch, S::Piece(Strip), "strook stroken"),
    (Spanish, S::Piece(Strip), "tira tiras"),
    (English, S::Piece(Mat), "mat mats matting layer layers"),
    (
        German,
        S::Piece(Mat),
        "matte matten aufleger lage lagen schicht auflage mattung",
    ),
    (
        French,
        S::Piece(Mat),
        "passe-partout passepartout couche couches fond",
    ),
    (Dutch, S::Piece(Mat), "laag lagen passe-partouts"),
    (Spanish, S::Piece(Mat), "capa capas paspartú marialuisa"),
    (
        English,
        S::Piece(Focal),
        "focal photo label sentiment tag square circle",
    ),
    (
        German,
        S::Piece(Focal),
        "blickfang foto etikett motiv schild",
    ),
    (French, S::Piece(Focal), "étiquette motif vignette"),
    (Dutch, S::Piece(Focal), "label etiket blikvanger"),
    (Spanish, S::Piece(Focal), "etiqueta motivo"),
    (English, S::Piece(Insert), "insert liner"),
    (German, S::Piece(Insert), "einlage einlegeblatt einleger"),
    (French, S::Piece(Insert), "feuillet encart"),
    (Dutch, S::Piece(Insert), "inlegvel inleg binnenvel"),
    (Spanish, S::Piece(Insert), "inserto"),
    (
        English,
        S::Score,
        "score scores scored scoring fold folds crease creases",
    ),
    (
        German,
        S::Score,
        "falz falze falzen rillen rille falten ritzen nuten",
    ),
    (
        French,
        S::Score,
        "rainer rainurer rainure plier pli plis rainez pliez rainage marquer",
    ),
    (
        Dutch,
        S::Score,
        "rillen ril ril vouw vouwen ritsen rits vouwlijn vouwlijnen",
    ),
    (
        Spanish,
        S::Score,
        "marcar hendir hendido plegar doblar pliegue pliegues marca dobla hender",
    ),
    (English, S::Folded, "folded closed"),
    (German, S::Folded, "gefaltet geschlossen gefalzt"),
    (French, S::Folded, "plié pliée fermé fermée"),
    (Dutch, S::Folded, "gevouwen dichtgevouwen"),
    (
        Spanish,
        S::Folded,
        "doblado doblada plegado plegada cerrada",
    ),
    (English, S::Half, "half middle centre center"),
    (German, S::Half, "mitte mittig hälfte"),
    (French, S::Half, "moitié milieu"),
    (Dutch, S::Half, "midden helft dubbel dubbelvouwen"),
    (Spanish, S::Half, "mitad medio"),
    (English, S::Every, "every"),
    (German, S::Every, "alle"),
    (French, S::Every, "tous"),
    (Dutch, S::Every, "elke"),
    (Spanish, S::Every, "cada"),
    (English, S::By, "x by"),
    (German, S::By, "mal"),
    (French, S::By, "sur par"),
    (Dutch, S::By, "bij"),
    (Spanish, S::By, "por"),
    (English, S::At, "at"),
    (German, S::At, "bei"),
    (French, S::At, "à"),
    (Dutch, S::At, "op"),
    (English, S::From, "from"),
    (German, S::From, "aus"),
    (French, S::From, "dans"),
    (Dutch, S::From, "uit vanaf"),
    (Spanish, S::From, "desde"),
    (English, S::And, "and then"),
    (German, S::And, "und"),
    (French, S::And, "et"),
    (Dutch, S::And, "en"),
    (Spanish, S::And, "y"),
    (English, S::On, "on onto"),
    (German, S::On, "auf"),
    (English, S::Long, "long longer length lengthwise"),
    (German, S::Long, "lange langen längere langseite"),
    (French, S::Long, "grand long longueur"),
    (Dutch, S::Long, "lange langste"),
    (Spanish, S::Long, "largo"),
    (English, S::Short, "short shorter"),
    (German, S::Short, "kurze kurzen kürzere"),
    (French, S::Short, "petit court"),
    (Dutch, S::Short, "korte kortste"),
    (Spanish, S::Short, "corto"),
    (English, S::Mountain, "mountain"),
    (German, S::Mountain, "bergfalte berg bergfalz"),
    (French, S::Mountain, "montagne"),
    (Dutch, S::Mountain, "bergvouw"),
    (Spanish, S::Mountain, "montaña"),
    (English, S::Valley, "valley"),
    (German, S::Valley, "talfalte tal talfalz"),
    (French, S::Valley, "vallée"),
    (Dutch, S::Valley, "dalvouw"),
    (Spanish, S::Valley, "valle"),
    (English, S::Panel, "panel panels"),
    (German, S::Panel, "felder feld seitenbreiten"),
    (French, S::Panel, "panneau panneaux volet volets"),
    (Dutch, S::Panel, "paneel panelen vlakken"),
    (Spanish, S::Panel, "paneles panel"),
    (English, S::Border, "border borders margin"),
    (German, S::Border, "rand ränder"),
    (French, S::Border, "bord bordure marge"),
    (Dutch, S::Border, "randje"),
    (Spanish, S::Border, "borde margen"),
    (English, S::Finished, "finished finish"),
    (German, S::Finished, "endformat fertig fertigmaß"),
    (French, S::Finished, "fini finie"),
    (Dutch, S::Finished, "eindformaat eindmaat"),
    (Spanish, S::Finished, "final terminada"),
    (English, S::Envelope, "envelope envelopes"),
    (
        German,
        S::Envelope,
        "umschlag umschläge briefumschlag kuvert",
    ),
    (French, S::Envelope, "enveloppe enveloppes"),
    (Dutch, S::Envelope, "envelop enveloppen"),
    (Spanish, S::Envelope, "sobre sobres"),
    (English, S::Sheet, "sheet sheets pad"),
    (German, S::Sheet, "bogen blatt bögen"),
    (French, S::Sheet, "feuille feuilles"),
    (Dutch, S::Sheet, "vel vellen"),
    (Spanish, S::Sheet, "hoja hojas pliego"),
    (English, S::Spot(Spot::Front), "front"),
    (German, S::Spot(Spot::Front), "vorne vorderseite"),
    (French, S::Spot(Spot::Front), "devant"),
    (Dutch, S::Spot(Spot::Front), "voorkant voor"),
    (Spanish, S::Spot(Spot::Front), "frente delante"),
    (English, S::Spot(Spot::Inside), "inside"),
    (German, S::Spot(Spot::Inside), "innen innenseite"),
    (French, S::Spot(Spot::Inside), "intérieur dedans"),
    (Dutch, S::Spot(Spot::Inside), "binnen binnenkant"),
    (Spanish, S::Spot(Spot::Inside), "interior dentro"),
    (English, S::Spot(Spot::Back), "back"),
    (German, S::Spot(Spot::Back), "hinten rückseite"),
    (French, S::Spot(Spot::Back), "dos arrière"),
    (Dutch, S::Spot(Spot::Back), "achter achterkant"),
    (Spanish, S::Spot(Spot::Back), "atrás detrás"),
    (English, S::Many(1), "one"),
    (English, S::Many(2), "two"),
    (English, S::Many(3), "three"),
    (English, S::Many(4), "four"),
    (English, S::Many(5), "five"),
    (English, S::Many(6), "six"),
    (German, S::Many(1), "ein eine einen"),
    (German, S::Many(2), "zwei"),
    (German, S::Many(3), "drei"),
    (German, S::Many(4), "vier"),
    (French, S::Many(1), "une un"),
    (French, S::Many(2), "deux"),
    (French, S::Many(3), "trois"),
    (French, S::Many(4), "quatre"),
    (Dutch, S::Many(1), "een één"),
    (Dutch, S::Many(2), "twee"),
    (Dutch, S::Many(3), "drie"),
    (Spanish, S::Many(1), "una uno"),
    (Spanish, S::Many(2), "dos"),
    (Spanish, S::Many(3), "tres"),
    (Spanish, S::Many(4), "cuatro"),
    (English, S::Pieces, "pieces pcs pc ea each"),
    (German, S::Pieces, "stück stk stücke"),
    (French, S::Pieces, "pièce pièces"),
    (Dutch, S::Pieces, "stuks stuk"),
    (Spanish, S::Pieces, "pieza piezas"),
    (English, S::Tent, "tent"),
    (
        English,
        S::Behind(Price),
        "€ $ £ usd eur euro euros cents dollar dollars gbp",
    ),
    (
        English,
        S::Behind(Weight),
        "g gsm lb lbs pt kg gr grams pound pounds",
    ),
    (
        English,
        S::Behind(Time),
        "minutes minute mins min hours hour h pm o'clock uhr heures minuten uur minutos",
    ),
    (
        English,
        S::Behind(Other),
        "% ° degrees px dpi pixels points",
    ),
    (
        English,
        S::Behind(Count),
        "cards kits people makers packs envelopes sheets copies stickers brads pearls dots students \
         pages bows buttons",
    ),
    (
        German,
        S::Behind(Count),
        "karten bögen teilnehmer sets seiten knöpfe perlen",
    ),
    (French, S::Behind(Count), "cartes feuilles personnes pages"),
    (Dutch, S::Behind(Count), "kaarten vellen personen"),
    (Spanish, S::Behind(Count), "tarjetas hojas personas páginas"),
    (
        English,
        S::Behind(Date),
        "january february march april june july august september october november december jan feb \
         apr jun jul aug sep sept oct nov dec",
    ),
    (
        English,
        S::Before(Date),
        "monday tuesday wednesday thursday friday saturday sunday samstag sonntag mardi samedi zaterdag \
         sábado",
    ),
    (
        English,
        S::Before(Numbering),
        "step page pages p no nr number item fig figure chapter lesson pg #",
    ),
    (
        German,
        S::Before(Numbering),
        "schritt seite punkt nummer bild",
    ),
    (French, S::Before(Numbering), "étape n numéro"),
    (Dutch, S::Before(Numbering), "stap bladzijde pagina"),
    (Spanish, S::Before(Numbering), "paso página núm"),
    (
        English,
        S::Before(Price),
        "price costs cost preis prix prijs precio",
    ),
    (
        English,
        S::Filler,
        "cut of the a an to with for is it in from left right edge mark marks side lines line \
                          size piece measures measuring wide tall high all your this that inches cm mm",
    ),
    (
        German,
        S::Filler,
        "der die das den dem schneiden zuschneiden für mit im am seite linken kante größe bis \
                         maß vom von am",
    ),
    (
        French,
        S::Filler,
        "le la les de du des couper coupez format pour de avec côté au aux en taille l d",
    ),
    (
        Dutch,
        S::Filler,
        "snijden het van voor met snij zijde kant formaat op",
    ),
    (
        Spanish,
        S::Filler,
        "cortar el los las con para lado tamaño corta del",
    ),
];

/// What a word tells, and in which language.
pub(super) fn sense(word: &str) -> Option<(Sense, Language)> {
    let row = TABLE
        .iter()
        .find(|(.., words)| words.split_whitespace().any(|other| other == word))?;
    Some((row.1, row.0))
}
