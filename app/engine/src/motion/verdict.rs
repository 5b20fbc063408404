//! How a card opens, and what hinders it.

use std::f64::consts::PI;

use super::assembly::{Assembly, Hinge};
use super::closure::Closure;
use super::collisions::Collisions;
use super::linkage::{GIVE, Linkage};
use super::path::{self, End, Way};
use super::space::{Rigid, Vector};

/// Poses in which collisions are looked for, for each stage of the opening:
/// every 5°, as far as two facets of a hand's breadth meet.
const LOOKS: u32 = 36;
/// Most poses looked at in all.
const MOST_LOOKS: u32 = 180;

/// How far the main fold is open, in radians (5°), before collisions are looked
/// for: nearly shut, everything lies on everything.
const PARTED: f64 = PI / 36.0 * 0.99;

/// A part of the assembly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Item {
    /// A facet without an area, or beyond any card's size.
    Facet(usize),
    /// A hinge without two facets or a direction.
    Hinge(usize),
    /// A bond without two facets or a place.
    Bond(usize),
    /// The facet on the table is none.
    Root,
    /// The place on the table is none.
    Table,
    /// The main fold is none.
    Main,
}

/// What was found about the opening. Facets, hinges and bonds are named by
/// their index in the [`Assembly`]. Angles are in radians, without sign: of a
/// folded crease π is shut and 0 flat.
#[derive(Debug, Clone, PartialEq)]
pub enum Finding {
    /// A part makes no sense and was left out.
    Malformed(Item),
    /// The bond holds a part in another place than the other bonds do.
    Contradiction {
        /// The bond.
        bond: usize,
    },
    /// Nothing connects the facet with the one on the table.
    Loose {
        /// The facet.
        facet: usize,
    },
    /// Glue holds both sides of a hinge that has to move, or the creases that
    /// move with it hold it in every direction.
    Locked {
        /// The hinge.
        hinge: usize,
        /// A crease that would let it move if it bent the other way.
        blamed: Option<usize>,
    },
    /// The creases round a loop do not come together in the closed card:
    /// opposite lengths or angles do not add up equally.
    Unclosed {
        /// The creases round the loop, in no order.
        hinges: Vec<usize>,
        /// By how much they miss, in millimetres over the size of what the
        /// crease that closes the loop joins.
        gap: f64,
    },
    /// The opening stops early.
    Jam {
        /// The hinge that stops: the main fold, or one that moves by itself.
        hinge: usize,
        /// Its fold angle there.
        angle: f64,
        /// The crease that is straight or would have to bend back, where one
        /// is known.
        blamed: Option<usize>,
    },
    /// The main fold does not determine this hinge: it moves by itself, or takes
    /// one way of several.
    Free {
        /// The hinge.
        hinge: usize,
    },
    /// Two facets pass through each other.
    Collision {
        /// The facets.
        facets: [usize; 2],
        /// The share of the opening at which it was first seen.
        share: f64,
        /// The main fold's angle there.
        angle: f64,
        /// A place where they meet, in the card's frame.
        at: Vector,
    },
    /// More creases move each other than are solved; they stay shut.
    TooCoupled {
        /// The creases.
        hinges: Vec<usize>,
    },
}

/// The card at one moment of its opening.
#[derive(Debug, Clone, PartialEq)]
pub struct Pose {
    /// The share of the opening, from 0 closed to 1 as far as it goes.
    pub share: f64,
    /// The fold angle of every hinge in radians: 0 flat, positive for a valley
    /// and negative for a mountain seen from side A.
    pub angles: Vec<f64>,
    /// Where every facet lies in the card's frame.
    pub facets: Vec<Rigid>,
    /// The largest distance by which a loop misses, in millimetres over the
    /// size of the card.
    pub gap: f64,
}

/// When the hinges that the main fold does not move open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Order {
    /// All together, in proportion to the main fold.
    Together,
    /// One after another: the main fold first, then from the table outwards.
    /// Taken where opening together would lead parts through each other.
    InTurn,
}

/// How an assembly opens.
#[derive(Debug)]
pub struct Opening {
    linkage: Linkage,
    hinges: Vec<Hinge>,
    main: usize,
    ways: Vec<Way>,
    /// When hinges open that the main fold does not move.
    pub order: Order,
    /// Everything that was found: in the parts, on the way, in space.
    pub findings: Vec<Finding>,
}

impl Opening {
    /// Opens an assembly. Without sound facets, a root and a main fold there
    /// is nothing to open: the findings then say why.
    pub fn of(assembly: &Assembly) -> Result<Self, Vec<Finding>> {
        let mut findings = Vec::new();
        let Some(linkage) = Linkage::of(assembly, &mut findings) else {
            return Err(findings);
        };
        let ways = linkage
            .blocks
            .iter()
            .map(|block| path::way(&linkage, block))
            .collect();
        let mut opening = Self {
            linkage,
            hinges: assembly.hinges.clone(),
            main: assembly.main,
            ways,
            order: Order::Together,
            findings,
        };
        opening.judge();
        let mut collisions = opening.collisions(assembly);
        if !collisions.is_empty() && opening.stages() > 1 {
            opening.order = Order::InTurn;
            let in_turn = opening.collisions(assembly);
            if in_turn.len() < collisions.len() {
                collisions = in_turn;
            } else {
                opening.order = Order::Together;
            }
        }
        opening.findings.extend(collisions);
        Ok(opening)
    }

    /// The card at a share of the opening, from 0 closed to 1 as far as it goes.
    #[must_use]
    pub fn pose_at(&self, share: f64) -> Pose {
        let share = if share.is_nan() {
            0.0
        } else {
            share.clamp(0.0, 1.0)
        };
        let mut opened = vec![0.0; self.linkage.joints.len()];
        let mut gap = 0.0_f64;
        let mut stage = 0.0;
        for (block, way) in self.linkage.blocks.iter().zip(&self.ways) {
            let local = match self.order {
                Order::Together => share,
                Order::InTurn => (share * f64::from(self.stages()) - stage).clamp(0.0, 1.0),
            };
            if way.reach() > 0.0 {
                stage += 1.0;
            }
            let mut closure = Closure::new(&self.linkage, block);
            gap = gap.max(way.pose(&mut closure, local));
            for joint in &block.joints {
                opened[*joint] = closure.opened[*joint];
            }
        }
        let mut bodies = vec![self.linkage.table; self.linkage.bodies];
        self.linkage
            .place(&self.linkage.steps, &opened, &mut bodies);
        let lays = self.linkage.lays.iter();
        Pose {
            share,
            angles: self
                .hinges
                .iter()
                .zip(&self.linkage.joint_of)
                .map(|(hinge, joint)| hinge.angle(joint.map_or(0.0, |joint| opened[joint])))
                .collect(),
            facets: lays.map(|(body, lay)| bodies[*body].after(lay)).collect(),
            gap,
        }
    }

    /// Poses from closed to the end, in equal steps.
    pub fn poses(&self, steps: u32) -> impl Iterator<Item = Pose> + '_ {
        let steps = steps.max(1);
        (0..=steps).map(move |step| self.pose_at(f64::from(step) / f64::from(steps)))
    }

    /// How far the main fold opens, in degrees.
    #[must_use]
    pub fn degrees(&self) -> f64 {
        let [closed, open] = [0.0, 1.0].map(|share| self.main_angle(&self.pose_at(share)));
        (closed - open).abs().to_degrees()
    }

    /// How many blocks move.
    fn stages(&self) -> u32 {
        self.ways
            .iter()
            .map(|way| u32::from(way.reach() > 0.0))
            .sum()
    }

    /// The main fold's angle without sign.
    fn main_angle(&self, pose: &Pose) -> f64 {
        pose.angles[self.main].abs()
    }

    /// Says how the way of every block ends and what it leaves open.
    fn judge(&mut self) {
        for (index, (block, way)) in self.linkage.blocks.iter().zip(&self.ways).enumerate() {
            let joints = &self.linkage.joints;
            let hinges = |index: usize| &joints[block.joints[index]].hinges;
            let named = |index: usize| hinges(index).first().copied();
            let hinge = if hinges(0).contains(&self.main) {
                Some(self.main)
            } else {
                named(0)
            };
            let Some(hinge) = hinge else {
                continue;
            };
            match &way.end {
                End::Open => {}
                End::Jam(blamed) => self.findings.push(Finding::Jam {
                    hinge,
                    angle: self.hinges[hinge].angle(way.reach()).abs(),
                    blamed: blamed.and_then(named),
                }),
                End::Locked(blamed) => self.findings.push(Finding::Locked {
                    hinge,
                    blamed: blamed.and_then(named),
                }),
                End::Unclosed(loops) => {
                    let loops = loops.iter().cloned();
                    self.findings
                        .extend(loops.map(|(hinges, gap)| Finding::Unclosed { hinges, gap }));
                }
                End::TooCoupled => self.findings.push(Finding::TooCoupled {
                    hinges: (0..block.joints.len()).filter_map(named).collect(),
                }),
            }
            let main = self.linkage.joint_of[self.main];
            let alone = index > 0 || main != block.joints.first().copied();
            let loose = way.free.iter().enumerate();
            for (index, free) in loose {
                if *free || (index == 0 && alone) {
                    let hinges = hinges(index).iter();
                    self.findings
                        .extend(hinges.map(|hinge| Finding::Free { hinge: *hinge }));
                }
            }
        }
    }

    /// Follows the opening and finds where facets pass through each other.
    fn collisions(&self, assembly: &Assembly) -> Vec<Finding> {
        let rings = assembly.facets.iter().map(|facet| facet.rings().collect());
        let joined = self.hinges.iter().map(|hinge| hinge.facets).collect();
        let mut collisions = Collisions::new(&self.linkage, rings.collect(), joined);
        let looks = match self.order {
            Order::Together => LOOKS,
            Order::InTurn => (LOOKS * self.stages()).min(MOST_LOOKS),
        };
        let mut found = Vec::new();
        for pose in self.poses(looks) {
            let angle = self.main_angle(&pose);
            if angle > PI - PARTED || pose.gap > GIVE {
                continue;
            }
            for (facets, at) in collisions.in_pose(&pose.facets) {
                found.push(Finding::Collision {
                    facets,
                    share: pose.share,
                    angle,
                    at,
                });
            }
        }
        found
    }
}
