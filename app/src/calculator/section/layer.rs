//! One layer: where it lies, what it is cut from, how it is fixed.

use foldwright_engine::draw::back_of_layer;
use foldwright_engine::glue::Gluing;
use foldwright_engine::length::Length;
use foldwright_engine::paper::StockSide;
use foldwright_engine::part::Part;
use foldwright_engine::problem;
use foldwright_engine::recipe::{Anchor, Bond, Layer, LayerId, Placing, Shaped};
use foldwright_engine::steps::how_to_glue;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::field::{LengthField, NameField};
use super::super::number::Number;
use super::super::picture::Picture;
use super::super::pull_down::Pick;
use super::super::still::Still;
use super::super::ties::Rules;
use super::cut_from::CutFrom;
use super::outline::OutlineChoice;
use super::problems::ProblemList;
use super::seat::{SeatChoice, seats};
use super::size::LayerSize;
use crate::part::{Choice, told};
use crate::spoken::{naming, speaker, texts};

/// The nine points, row by row.
fn points() -> [(Anchor, &'static str); 9] {
    let texts = &texts().shape;
    [
        (Anchor::TopLeft, texts.top_left),
        (Anchor::Top, texts.top),
        (Anchor::TopRight, texts.top_right),
        (Anchor::Left, texts.left),
        (Anchor::Centre, texts.centre),
        (Anchor::Right, texts.right),
        (Anchor::BottomLeft, texts.bottom_left),
        (Anchor::Bottom, texts.bottom),
        (Anchor::BottomRight, texts.bottom_right),
    ]
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Held {
    Border,
    Point,
    Distances,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Fixed {
    Safe,
    Within,
    Loose,
}

/// The particulars of one layer.
#[component]
pub(super) fn OneLayer(id: LayerId) -> impl IntoView {
    let desk = Desk::here();
    let change = move |change: fn(&mut Layer, StockSide), shows: StockSide| {
        desk.change(|recipe| {
            if let Some(layer) = recipe.layers.iter_mut().find(|layer| layer.id == id) {
                change(layer, shows);
            }
        });
    };
    let name = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            recipe
                .layer(id)
                .map_or_else(String::new, |layer| layer.name.clone())
        })
    });
    let shows = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            recipe
                .layer(id)
                .map_or(StockSide::Face, |layer| layer.shows)
        })
    });
    let rename = move |name: String| {
        // Fails only for a part that is gone, and then there is nothing to name.
        desk.change(|recipe| drop(recipe.rename_layer(id, &name, naming())));
    };
    let measures = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let layer = recipe.layer(id);
            layer.map_or_else(Vec::new, |layer| layer.measures().collect())
        })
    });
    view! {
        <div class="layer-body">
            <ProblemList which=move |problem| problem.place == problem::Place::Layer(id) here=true/>
            <LayerSize id/>
            <OutlineChoice of=Shaped::Layer(id)/>
            <Placing id/>
            <Rules measures/>
            <Bonding id/>
            <SeatPick id/>
            <div class="fields">
                <NameField label=texts().shape.name name rename/>
                <CutFrom label=texts().shape.cut_from part=Part::Layer(id)/>
                <div class="field">
                    <span>{texts().shape.shows}</span>
                    <Choice
                        label=texts().shape.which_side_shows
                        options=|| vec![(StockSide::Face, texts().shape.face), (StockSide::Back, texts().shape.back)]
                        chosen=shows
                        choose=move |side| change(|layer, side| layer.shows = side, side)
                    />
                </div>
                <TurnPick id/>
            </div>
            <button
                type="button"
                class="button quiet"
                on:click=move |_| {
                    desk.edit(None, |recipe| recipe.remove_layer(id));
                }
            >
                {texts().shape.take_layer_off}
            </button>
        </div>
    }
}

/// How the layer lies on the sheet it is cut from.
#[component]
fn TurnPick(id: LayerId) -> impl IntoView {
    let desk = Desk::here();
    let chosen = Signal::derive(move || {
        desk.recipe
            .with(|recipe| recipe.layer(id).and_then(|layer| layer.turn))
    });
    let options = Signal::derive(move || {
        let mut options = vec![(None, texts().shape.best_way.to_owned())];
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let blank = card.cut_list.of(Part::Layer(id));
                let stock = blank.and_then(|blank| recipe.stock(blank.stock));
                let lies = blank.and_then(|blank| blank.lies.as_ref());
                let Some((stock, lies)) = stock.zip(lies) else {
                    return;
                };
                for report in &lies.lays {
                    let turn = Some(report.lay.turn);
                    let [way, count] = speaker(recipe).layer_lies(stock, report);
                    let words = format!("{way}: {count}");
                    // Of those that look alike one stands for all: the chosen one.
                    match options.iter_mut().find(|(_, other)| *other == words) {
                        Some((alike, _)) if turn == chosen.get() => *alike = turn,
                        Some(_) => {}
                        None => options.push((turn, words)),
                    }
                }
            });
        });
        options
    });
    let choose = move |turn| {
        desk.change(|recipe| {
            if let Some(layer) = recipe.layers.iter_mut().find(|layer| layer.id == id) {
                layer.turn = turn;
            }
        });
    };
    view! { <Pick label=texts().shape.on_its_sheet options chosen choose/> }
}

/// What the layer lies on.
#[component]
fn SeatPick(id: LayerId) -> impl IntoView {
    let desk = Desk::here();
    let options = Memo::new(move |_| seats(desk, Some(id)));
    let chosen = Memo::new(move |_| {
        desk.recipe
            .with(|recipe| recipe.layer(id).map(|layer| layer.on))
    });
    let choose = move |seat| {
        desk.edit(None, |recipe| {
            let mut moved = recipe.clone();
            let layer = moved.layers.iter_mut().find(|layer| layer.id == id);
            let place = layer.map(|layer| {
                layer.on = seat;
                layer.place
            });
            let changes = moved.place_layer(id, place.unwrap_or(Placing::Distances))?;
            *recipe = moved;
            Ok(changes)
        });
    };
    view! {
        <SeatChoice label=texts().shape.lies_on name=format!("on{}", id.0) options chosen choose/>
    }
}

/// How the layer is held: by a border, at a point, or by distances.
#[component]
fn Placing(id: LayerId) -> impl IntoView {
    let desk = Desk::here();
    let place = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            recipe
                .layer(id)
                .map_or(Placing::Distances, |layer| layer.place)
        })
    });
    let held = Signal::derive(move || match place.get() {
        Placing::Border(_) => Held::Border,
        Placing::At(_) => Held::Point,
        Placing::Distances => Held::Distances,
    });
    let hold = move |held| {
        desk.edit(None, |recipe| match held {
            Held::Border => recipe.border_layer(id, naming()),
            Held::Point => recipe.place_layer(id, Placing::At(Anchor::Centre)),
            Held::Distances => recipe.place_layer(id, Placing::Distances),
        });
    };
    let more = move || match place.get() {
        Placing::Border(border) => view! {
            <div class="numbers">
                <Number measure=Signal::stored(border) label=texts().shape.border/>
            </div>
        }
        .into_any(),
        Placing::At(anchor) => {
            let points = points().map(|(point, words)| {
                view! {
                    <button
                        type="button"
                        class="point"
                        aria-label=words
                        aria-pressed=if point == anchor { "true" } else { "false" }
                        on:click=move |_| {
                            desk.edit(None, |recipe| recipe.place_layer(id, Placing::At(point)));
                        }
                    ></button>
                }
            });
            view! {
                <div class="points" role="group" aria-label=texts().shape.held_at>
                    {points.into_iter().collect_view()}
                </div>
            }
            .into_any()
        }
        Placing::Distances => view! {
            <p class="quiet">{texts().shape.by_two_distances}</p>
        }
        .into_any(),
    };
    view! {
        <h3>{texts().shape.placed}</h3>
        <Choice
            label=texts().shape.placed
            options=|| vec![
                (Held::Border, texts().shape.even_border),
                (Held::Point, texts().shape.at_a_point),
                (Held::Distances, texts().shape.by_distances),
            ]
            chosen=held
            choose=hold
        />
        {more}
    }
}

/// How the layer is fixed, with the back of it drawn.
#[component]
fn Bonding(id: LayerId) -> impl IntoView {
    let desk = Desk::here();
    let gluing = Memo::new(move |_| {
        desk.card.with(|card| {
            let gluing = card.gluings.iter().find(|gluing| gluing.layer == id);
            gluing.cloned()
        })
    });
    let bond = Memo::new(move |_| {
        desk.recipe
            .with(|recipe| recipe.layer(id).map_or(Bond::Loose, |layer| layer.bond))
    });
    let set = move |bond: Bond| {
        desk.change(|recipe| {
            if let Some(layer) = recipe.layers.iter_mut().find(|layer| layer.id == id) {
                layer.bond = bond;
            }
        });
    };
    let fixed = Signal::derive(move || match bond.get() {
        Bond::Safe => Fixed::Safe,
        Bond::Within { .. } => Fixed::Within,
        Bond::Loose => Fixed::Loose,
    });
    let fix = move |fixed| {
        set(match fixed {
            Fixed::Safe => Bond::Safe,
            Fixed::Within => within(gluing.get_untracked()),
            Fixed::Loose => Bond::Loose,
        });
    };
    let chosen = move || fixed.get() == Fixed::Within;
    view! {
        <h3>{texts().shape.glued}</h3>
        <Choice
            label=texts().shape.glued
            options=|| vec![
                (Fixed::Safe, texts().shape.where_safe),
                (Fixed::Within, texts().shape.where_i_set),
                (Fixed::Loose, texts().shape.not_glued),
            ]
            chosen=fixed
            choose=fix
        />
        <Show when=chosen>
            <p class="quiet">{texts().shape.how_far_glue_stays}</p>
            <div class="fields four">
                <Distance bond label=texts().shape.left part=|bond| edges(bond)[0] set=move |to| set(with_edge(bond.get_untracked(), 0, to))/>
                <Distance bond label=texts().shape.right part=|bond| edges(bond)[1] set=move |to| set(with_edge(bond.get_untracked(), 1, to))/>
                <Distance bond label=texts().shape.top part=|bond| edges(bond)[2] set=move |to| set(with_edge(bond.get_untracked(), 2, to))/>
                <Distance bond label=texts().shape.bottom part=|bond| edges(bond)[3] set=move |to| set(with_edge(bond.get_untracked(), 3, to))/>
            </div>
        </Show>
        <Show when=move || fixed.get() != Fixed::Loose>
            <GlueFigure gluing/>
        </Show>
    }
}

/// The glue as it is now, to start from.
fn within(gluing: Option<Gluing>) -> Bond {
    let edges = gluing.and_then(|gluing| Some(gluing.edges(gluing.safe.as_ref()?)));
    let edges = edges.map_or([Length::ZERO; 4], |edges| {
        [edges.left, edges.right, edges.top, edges.bottom]
    });
    from_edges(edges)
}

fn from_edges([left, right, top, bottom]: [Length; 4]) -> Bond {
    Bond::Within {
        left,
        right,
        top,
        bottom,
    }
}

/// Left, right, top, bottom; nothing where the glue is not chosen.
fn edges(bond: Bond) -> [Length; 4] {
    match bond {
        Bond::Within {
            left,
            right,
            top,
            bottom,
        } => [left, right, top, bottom],
        Bond::Safe | Bond::Loose => [Length::ZERO; 4],
    }
}

fn with_edge(bond: Bond, edge: usize, to: Length) -> Bond {
    let mut edges = edges(bond);
    if let Some(edge) = edges.get_mut(edge) {
        *edge = to;
    }
    from_edges(edges)
}

#[component]
fn Distance(
    bond: Memo<Bond>,
    label: &'static str,
    part: fn(Bond) -> Length,
    set: impl Fn(Length) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let length = Signal::derive(move || part(bond.get()));
    view! { <LengthField label length set/> }
}

/// The back of the layer with its glue, drawn and in words.
#[component]
fn GlueFigure(gluing: Memo<Option<Gluing>>) -> impl IntoView {
    let desk = Desk::here();
    let picture = Memo::new(move |_| {
        let gluing = gluing.get()?;
        desk.recipe.with(|recipe| {
            let back = desk.card.with(|card| back_of_layer(recipe, card, &gluing));
            Some(Picture::written(back, "back"))
        })
    });
    let does = move || {
        let gluing = gluing.get()?;
        desk.recipe.with(|recipe| {
            let say = speaker(recipe).with_exact();
            Some(told(say.instructions(&how_to_glue(&gluing)).join(" ")))
        })
    };
    view! {
        <div class="glue-figure">
            <Still picture/>
            <p>{does}</p>
        </div>
    }
}
