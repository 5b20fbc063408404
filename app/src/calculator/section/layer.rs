//! One layer: where it lies, what it is cut from, how it is fixed.

use foldwright_engine::draw::back_of_layer;
use foldwright_engine::glue::Gluing;
use foldwright_engine::length::Length;
use foldwright_engine::paper::StockSide;
use foldwright_engine::problem;
use foldwright_engine::recipe::{Anchor, Bond, Layer, LayerId, Place, Seat, Shaped};
use foldwright_engine::words;
use leptos::prelude::*;

use super::super::choice::{Pick, Segments};
use super::super::desk::Desk;
use super::super::field::{LengthField, NameField};
use super::super::number::Number;
use super::super::picture::Picture;
use super::super::still::Still;
use super::super::ties::Rules;
use super::outline::OutlineChoice;
use super::problems::ProblemList;
use super::size::LayerSize;

/// The nine points, row by row.
const POINTS: [(Anchor, &str); 9] = [
    (Anchor::TopLeft, "Top left"),
    (Anchor::Top, "Top"),
    (Anchor::TopRight, "Top right"),
    (Anchor::Left, "Left"),
    (Anchor::Centre, "Centre"),
    (Anchor::Right, "Right"),
    (Anchor::BottomLeft, "Bottom left"),
    (Anchor::Bottom, "Bottom"),
    (Anchor::BottomRight, "Bottom right"),
];

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
    let stocks = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let stocks = recipe.stocks.iter();
            stocks
                .map(|stock| (stock.id, stock.name.clone()))
                .collect::<Vec<_>>()
        })
    });
    let stock = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            recipe
                .layer(id)
                .map_or(recipe.base.stock, |layer| layer.stock)
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
        desk.change(|recipe| drop(recipe.rename_layer(id, &name)));
    };
    let cut_from = move |stock| {
        desk.change(|recipe| {
            if let Some(layer) = recipe.layers.iter_mut().find(|layer| layer.id == id) {
                layer.stock = stock;
            }
        });
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
            <div class="fields">
                <NameField label="Name" name rename/>
                <SeatPick id/>
                <Pick label="Cut from" options=stocks chosen=stock choose=cut_from/>
                <div class="field">
                    <span>"Shows"</span>
                    <Segments
                        label="Which side of the paper shows"
                        options=vec![(StockSide::Face, "Face"), (StockSide::Back, "Back")]
                        chosen=shows
                        choose=move |side| change(|layer, side| layer.shows = side, side)
                    />
                </div>
            </div>
            <button
                type="button"
                class="button quiet"
                on:click=move |_| {
                    desk.edit(None, |recipe| recipe.remove_layer(id));
                }
            >
                "Take this layer off"
            </button>
        </div>
    }
}

/// What the layer lies on.
#[component]
fn SeatPick(id: LayerId) -> impl IntoView {
    let desk = Desk::here();
    let options = Signal::derive(move || desk.seats(Some(id)));
    let chosen = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let seat = recipe.layer(id).map(|layer| layer.on);
            seat.unwrap_or(Seat::Layer(id))
        })
    });
    let choose = move |seat| {
        desk.edit(None, |recipe| {
            let mut moved = recipe.clone();
            let layer = moved.layers.iter_mut().find(|layer| layer.id == id);
            let place = layer.map(|layer| {
                layer.on = seat;
                layer.place
            });
            let changes = moved.place_layer(id, place.unwrap_or(Place::Distances))?;
            *recipe = moved;
            Ok(changes)
        });
    };
    view! { <Pick label="Lies on" options chosen choose/> }
}

/// How the layer is held: by a border, at a point, or by distances.
#[component]
fn Placing(id: LayerId) -> impl IntoView {
    let desk = Desk::here();
    let place = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            recipe
                .layer(id)
                .map_or(Place::Distances, |layer| layer.place)
        })
    });
    let held = Signal::derive(move || match place.get() {
        Place::Border(_) => Held::Border,
        Place::At(_) => Held::Point,
        Place::Distances => Held::Distances,
    });
    let hold = move |held| {
        desk.edit(None, |recipe| match held {
            Held::Border => recipe.border_layer(id),
            Held::Point => recipe.place_layer(id, Place::At(Anchor::Centre)),
            Held::Distances => recipe.place_layer(id, Place::Distances),
        });
    };
    let more = move || match place.get() {
        Place::Border(border) => view! {
            <div class="numbers">
                <Number measure=Signal::stored(border) label="Border"/>
            </div>
        }
        .into_any(),
        Place::At(anchor) => {
            let points = POINTS.map(|(point, words)| {
                view! {
                    <button
                        type="button"
                        class="point"
                        aria-label=words
                        aria-pressed=if point == anchor { "true" } else { "false" }
                        on:click=move |_| {
                            desk.edit(None, |recipe| recipe.place_layer(id, Place::At(point)));
                        }
                    ></button>
                }
            });
            view! {
                <div class="points" role="group" aria-label="Held at">
                    {points.into_iter().collect_view()}
                </div>
            }
            .into_any()
        }
        Place::Distances => view! {
            <p class="quiet">"By the two distances above. A minus hangs over the edge."</p>
        }
        .into_any(),
    };
    view! {
        <h3>"Placed"</h3>
        <Segments
            label="Placed"
            options=vec![
                (Held::Border, "Even border"),
                (Held::Point, "At a point"),
                (Held::Distances, "By distances"),
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
        <h3>"Glued"</h3>
        <Segments
            label="Glued"
            options=vec![
                (Fixed::Safe, "Where it is safe"),
                (Fixed::Within, "As I say"),
                (Fixed::Loose, "Not glued"),
            ]
            chosen=fixed
            choose=fix
        />
        <Show when=chosen>
            <p class="quiet">"How far the glue stays from the edges of the back, as you see it when gluing."</p>
            <div class="fields four">
                <Distance bond label="Left" part=|bond| edges(bond)[0] set=move |to| set(with_edge(bond.get_untracked(), 0, to))/>
                <Distance bond label="Right" part=|bond| edges(bond)[1] set=move |to| set(with_edge(bond.get_untracked(), 1, to))/>
                <Distance bond label="Top" part=|bond| edges(bond)[2] set=move |to| set(with_edge(bond.get_untracked(), 2, to))/>
                <Distance bond label="Bottom" part=|bond| edges(bond)[3] set=move |to| set(with_edge(bond.get_untracked(), 3, to))/>
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
    let told = move || {
        let gluing = gluing.get()?;
        desk.recipe
            .with(|recipe| Some(words::glue_words(recipe, &gluing)))
    };
    view! {
        <div class="glue-figure">
            <Still picture/>
            <p>{told}</p>
        </div>
    }
}
