//! One paper: its size, weight, thickness and looks.

use std::cmp::Ordering;

use foldwright_engine::length::Length;
use foldwright_engine::paper::{
    Colour, Grade, Grain, Heads, Print, PrintedPaper, SHEETS, SideLook, Stock, StockId, StockSide,
    Weight, caliper_is, suggest_caliper,
};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::field::{LengthField, NameField};
use super::super::pull_down::Pick;
use super::photo::PhotoOf;
use crate::part::{Choice, Swatch, Typed, heard};
use crate::spoken::{language, speaker_without_recipe, texts};

/// A paper with the ways to change it.
#[derive(Clone, Copy)]
pub(super) struct Edited {
    desk: Desk,
    id: StockId,
}

impl Edited {
    /// Something of the paper; `None` once the recipe lacks it.
    pub(super) fn read<T>(self, part: impl FnOnce(&Stock) -> T) -> Option<T> {
        self.desk
            .recipe
            .with(|recipe| recipe.stock(self.id).map(part))
    }

    pub(super) fn change(self, change: impl FnOnce(&mut Stock)) {
        let id = self.id;
        self.desk.change(|recipe| {
            if let Some(stock) = recipe.stocks.iter_mut().find(|stock| stock.id == id) {
                change(stock);
            }
        });
    }
}

/// Everything about one paper.
#[component]
pub(super) fn StockEditor(id: StockId) -> impl IntoView {
    let desk = Desk::here();
    let stock = Edited { desk, id };
    let name = Signal::derive(move || stock.read(|stock| stock.name.clone()).unwrap_or_default());
    let heads = Signal::derive(move || stock.read(|stock| stock.heads).unwrap_or_default());
    let grain = Signal::derive(move || stock.read(|stock| stock.grain).unwrap_or_default());
    let used = move || {
        desk.recipe.with(|recipe| {
            recipe.base.stock == id || recipe.layers.iter().any(|layer| layer.stock == id)
        })
    };
    let grains = Signal::derive(move || {
        let texts = &texts().paper;
        let size = stock.read(|stock| (stock.width, stock.height));
        let (width, height) = size.unwrap_or_default();
        let (up, across) = match width.cmp(&height) {
            Ordering::Less => (texts.grain_long, texts.grain_short),
            Ordering::Equal => (texts.grain_up, texts.grain_across),
            Ordering::Greater => (texts.grain_short, texts.grain_long),
        };
        vec![
            (Grain::Unknown, texts.not_known.to_owned()),
            (Grain::AlongHeight, up.to_owned()),
            (Grain::AlongWidth, across.to_owned()),
        ]
    });
    view! {
        <div class="stock">
            <div class="fields">
                <NameField label=texts().paper.name name rename=move |name| stock.change(|stock| stock.name = name)/>
                <Size stock/>
                <WeightFields stock/>
                <Caliper stock/>
                <SideFields stock side=StockSide::Face label=texts().paper.face/>
                <SideFields stock side=StockSide::Back label=texts().paper.back/>
                <div class="field">
                    <span>{texts().paper.prints_of_sides}</span>
                    <Choice
                        label=texts().paper.prints_of_sides
                        options=|| vec![(Heads::ToHead, texts().paper.head_to_head), (Heads::ToFoot, texts().paper.head_to_foot)]
                        chosen=heads
                        choose=move |heads| stock.change(|stock| stock.heads = heads)
                    />
                </div>
                <Pick
                    label=texts().paper.grain
                    options=grains
                    chosen=grain
                    choose=move |grain| stock.change(|stock| stock.grain = grain)
                />
            </div>
            <Show when=move || !used()>
                <button
                    type="button"
                    class="button quiet"
                    on:click=move |_| desk.change(|recipe| recipe.stocks.retain(|stock| stock.id != id))
                >
                    {texts().paper.take_paper_out}
                </button>
            </Show>
        </div>
    }
}

/// The sheet's size, from the table or typed.
#[component]
fn Size(stock: Edited) -> impl IntoView {
    let size = Memo::new(move |_| {
        stock
            .read(|stock| (stock.width, stock.height))
            .unwrap_or_default()
    });
    let width = Signal::derive(move || size.get().0);
    let height = Signal::derive(move || size.get().1);
    // A size and the same turned are two ways to hold the sheet.
    let say = untrack(|| speaker_without_recipe(stock.desk.notation()));
    let known: Vec<_> = SHEETS.iter().filter(|sheet| sheet.common).collect();
    let options: Vec<_> = std::iter::once((None, texts().paper.own_size.to_owned()))
        .chain(
            known
                .iter()
                .map(|sheet| (Some((sheet.width, sheet.height)), say.sheet(sheet))),
        )
        .chain(
            known
                .iter()
                .filter(|sheet| sheet.width != sheet.height)
                .map(|sheet| {
                    (
                        Some((sheet.height, sheet.width)),
                        texts().paper.turned(&say.sheet(sheet)),
                    )
                }),
        )
        .collect();
    let offered = Signal::stored(options);
    let chosen = Signal::derive(move || {
        let size = Some(size.get());
        offered
            .with(|offered| offered.iter().any(|(known, _)| *known == size))
            .then_some(size)
            .flatten()
    });
    let choose = move |size: Option<(Length, Length)>| {
        if let Some((width, height)) = size {
            stock.change(|stock| (stock.width, stock.height) = (width, height));
        }
    };
    view! {
        <Pick label=texts().paper.sheet options=offered chosen choose/>
        <LengthField label=texts().paper.width_face_upright length=width set=move |width| stock.change(|stock| stock.width = width) positive=true/>
        <LengthField label=texts().paper.height length=height set=move |height| stock.change(|stock| stock.height = height) positive=true/>
    }
}

/// Grams per square metre, or pounds of a grade.
#[component]
fn WeightFields(stock: Edited) -> impl IntoView {
    let weight = Memo::new(move |_| stock.read(|stock| stock.weight).unwrap_or(Weight::grams(0)));
    let unit = Signal::derive(move || match weight.get() {
        Weight::Grammage { .. } => None,
        Weight::Basis { grade, .. } => Some(grade),
    });
    let number = move || match weight.get() {
        Weight::Basis { pounds, .. } => pounds.to_string(),
        Weight::Grammage { tenths } if tenths % 10 == 0 => (tenths / 10).to_string(),
        Weight::Grammage { tenths } => {
            let mark = stock.desk.notation().decimal.as_str();
            format!("{}{mark}{}", tenths / 10, tenths % 10)
        }
    };
    let take = move |typed: &str| {
        let typed = typed.trim().replace(',', ".");
        let read = match unit.get_untracked() {
            Some(grade) => typed
                .parse()
                .ok()
                .filter(|pounds| *pounds > 0)
                .map(|pounds| Weight::pounds(pounds, grade)),
            None => tenths(&typed)
                .filter(|tenths| *tenths > 0)
                .map(|tenths| Weight::Grammage { tenths }),
        };
        let weight = read.ok_or_else(|| texts().paper.number_above_zero.to_owned())?;
        stock.change(|stock| stock.weight = weight);
        Ok(())
    };
    let say = untrack(|| speaker_without_recipe(stock.desk.notation()));
    let options: Vec<_> = std::iter::once((None, "g/m²".to_owned()))
        .chain(Grade::ALL.map(|grade| (Some(grade), say.grade(grade))))
        .collect();
    // The number stays as it is: it was read off the label, the unit mistaken.
    let choose = move |unit: Option<Grade>| {
        let whole = match weight.get_untracked() {
            Weight::Basis { pounds, .. } => pounds,
            Weight::Grammage { tenths } => tenths / 10,
        };
        stock.change(|stock| {
            stock.weight = unit.map_or(Weight::grams(whole), |grade| Weight::pounds(whole, grade));
        });
    };
    view! {
        <Typed label=texts().paper.weight kept=Signal::derive(number) take keys="decimal"/>
        <Pick label=texts().paper.weighed_in options=Signal::stored(options) chosen=unit choose/>
    }
}

/// A number with at most one decimal, in tenths.
fn tenths(typed: &str) -> Option<u32> {
    let (whole, part) = typed.split_once('.').unwrap_or((typed, "0"));
    let part: u32 = Some(part).filter(|part| part.len() == 1)?.parse().ok()?;
    whole
        .parse::<u32>()
        .ok()?
        .checked_mul(10)?
        .checked_add(part)
}

/// The thickness of one sheet, with what paper of that weight tends to be.
#[component]
fn Caliper(stock: Edited) -> impl IntoView {
    let caliper = Signal::derive(move || stock.read(|stock| stock.caliper).unwrap_or_default());
    let hint = Memo::new(move |_| {
        stock
            .read(|stock| suggest_caliper(stock.weight))
            .flatten()
            .map(|hint| hint.caliper)
    });
    let say = move |is| speaker_without_recipe(stock.desk.notation()).caliper(is);
    let is = move || stock.read(|stock| say(caliper_is(stock.weight, stock.caliper)));
    let other = move || hint.get().filter(|suggested| *suggested != caliper.get());
    view! {
        <div class="field">
            <LengthField label=texts().paper.caliper length=caliper set=move |caliper| stock.change(|stock| stock.caliper = caliper) positive=true/>
            <span class="quiet">{is}</span>
            {move || other().map(|suggested| {
                let words = stock.desk.notation().exactly(suggested);
                view! {
                    <button type="button" class="button" on:click=move |_| stock.change(|stock| stock.caliper = suggested)>
                        {heard(texts().paper.suggested(&words))}
                    </button>
                    <span class="quiet">
                        {move || {
                            let hint = stock.read(|stock| caliper_is(stock.weight, suggested));
                            hint.map(say)
                        }}
                    </span>
                }
            })}
        </div>
    }
}

/// Colour and print of one side.
#[component]
fn SideFields(stock: Edited, side: StockSide, label: &'static str) -> impl IntoView {
    let look = Memo::new(move |_| {
        stock
            .read(|stock| stock.side(side))
            .unwrap_or(SideLook::new(Colour::rgb(0x00ff_ffff), Print::Plain))
    });
    let change = move |change: &dyn Fn(&mut SideLook)| {
        stock.change(|stock| match side {
            StockSide::Face => change(&mut stock.face),
            StockSide::Back => change(&mut stock.back),
        });
    };
    let print = Signal::derive(move || {
        let SideLook { print, printed, .. } = look.get();
        (print, printed.filter(|_| print != Print::Plain))
    });
    let printed = Signal::derive(move || {
        let plain = prints()
            .into_iter()
            .map(|(print, words)| ((print, None), words));
        let mut all: Vec<_> = plain.chain(papers()).collect();
        // A side may say of its paper that its print runs in another way.
        let now = print.get();
        if let ((print, Some(paper)), false) = (now, all.iter().any(|(known, _)| *known == now)) {
            all.retain(|((_, known), _)| *known != Some(paper));
            let words = language().motifs().paper(paper, print);
            all.push((now, words));
        }
        all
    });
    view! {
        <label class="field">
            <span>
                {texts().paper.colour(label)} " "
                <Swatch look=Signal::derive(move || Some(look.get()))/>
            </span>
            <input
                type="color"
                prop:value=move || look.get().colour.to_string()
                on:change=move |event| {
                    if let Ok(colour) = event_target_value(&event).parse::<Colour>() {
                        change(&|look| look.colour = colour);
                    }
                }
            />
        </label>
        <Pick
            label=match side {
                StockSide::Face => texts().paper.face_print,
                StockSide::Back => texts().paper.back_print,
            }
            options=printed
            chosen=print
            choose=move |(print, printed)| change(&|look| print_as(look, print, printed))
        />
        <PhotoOf stock side/>
    }
}

/// Prints a side so: a paper of the workshop brings its colour along.
fn print_as(look: &mut SideLook, print: Print, printed: Option<PrintedPaper>) {
    (look.print, look.printed) = (print, printed);
    if let Some(paper) = printed {
        look.colour = paper.look().colour;
    }
}

/// The papers of the workshop, with how their prints run and what they are called.
fn papers() -> Vec<((Print, Option<PrintedPaper>), String)> {
    let of = |paper: PrintedPaper| {
        let print = paper.look().print;
        let words = language().motifs().paper(paper, print);
        ((print, Some(paper)), words)
    };
    PrintedPaper::ALL.map(of).into()
}

/// The prints there are, with their names.
pub(super) fn prints() -> Vec<(Print, String)> {
    let texts = &texts().paper;
    [
        (Print::Plain, texts.plain),
        (Print::AllOver, texts.printed_no_direction),
        (Print::OneWay, texts.printed_one_way),
        (Print::TwoWay, texts.printed_both_ways),
    ]
    .map(|(print, words)| (print, words.to_owned()))
    .into()
}
