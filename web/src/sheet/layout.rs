//! One scale for all views, and where each stands.
//!
//! Third angle (customary units): plan above, front to the left of the side view. First angle
//! (metric): plan below, front to the right.

use super::View;
use super::ink::Ink;
use super::legend;
use super::point::{Area, Plane, Point, point};
use super::scene::Scene;
use super::tags::{self, Rail};
use super::text_width::TextWidth;
use super::title_block;
use super::{front, ghost, plan, side_air, side_beyond, side_metal};

/// Room for a rail, px.
const RAIL: f64 = 46.0;
/// Room for a caption, px.
const CAPTION: f64 = 22.0;
/// Margin left and right, px.
const MARGIN: f64 = 12.0;
/// Between the columns, px.
const COLUMN_GAP: f64 = 34.0;
/// Between the rows, px.
const ROW_GAP: f64 = 12.0;
/// Smallest scale, px/in: smaller sheets would show nothing.
const SMALLEST: f64 = 0.5;
/// Largest scale, px/in.
const LARGEST: f64 = 40.0;

/// One view in its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placed {
    /// Which view.
    pub view: View,
    /// Where its inches lie.
    pub plane: Plane,
    /// The box that holds it, px.
    pub area: Area,
    /// Rails above and below, if it has any.
    pub rails: Option<[Rail; 2]>,
    /// Where its caption begins.
    pub caption: Point,
    /// Where its caption must have ended, px.
    pub caption_end: f64,
}

/// All views of a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Arrangement {
    /// The views.
    pub views: Vec<Placed>,
    /// Where the key stands.
    pub key: Area,
    /// Whether the key stands upright.
    pub upright: bool,
    /// px per inch.
    pub scale: f64,
}

/// Draws one view's lines, without tags.
pub fn lines(ink: &mut Ink, scene: &Scene, view: View) {
    match view {
        View::Front => front::draw(ink, scene),
        View::Plan => plan::draw(ink, scene),
        View::All | View::Side => {
            side_beyond::draw(ink, scene);
            if let Some(readout) = scene.readout {
                let air =
                    side_air::SideAir::new(ink, &scene.frame, readout, &scene.strands, scene.reach);
                air.draw(ink);
            }
            side_metal::draw(ink, scene);
        }
    }
    ghost::draw(ink, scene, view);
}

/// The box of a view in inches, y down the page: drawn once at a guessed scale.
fn extent(scene: &Scene, view: View, guess: f64, widths: &dyn TextWidth) -> Area {
    let plane = Plane {
        scale: guess,
        origin: point(0.0, 0.0),
        down: view == View::Plan,
    };
    let mut ink = Ink::new("m".to_owned(), plane, widths);
    lines(&mut ink, scene, view);
    let mut bounds = ink.bounds;
    bounds.take_area(usual(scene, view, &plane));
    // Strokes and heads keep their px whatever the scale.
    let px = 3.0;
    let bounds = bounds.grown(px);
    Area {
        left: bounds.left / guess,
        top: bounds.top / guess,
        right: bounds.right / guess,
        bottom: bounds.bottom / guess,
    }
}

/// The box of a view in inches before anything is drawn.
fn guessed(scene: &Scene, view: View) -> Area {
    let plane = Plane {
        scale: 1.0,
        origin: point(0.0, 0.0),
        down: view == View::Plan,
    };
    usual(scene, view, &plane)
}

/// What a view always holds, so that its scale does not jump with the condition.
fn usual(scene: &Scene, view: View, plane: &Plane) -> Area {
    let frame = &scene.frame;
    let half = frame.half_width + 1.6;
    match view {
        View::Front => plane.area((-half, frame.top + 2.2), (half, frame.lowest_tip)),
        View::Plan => {
            let (left, right) = (scene.reach.left, scene.reach.right);
            let near = if scene.half_plan {
                0.0
            } else {
                frame.half_width
            };
            let side = if scene.half_plan {
                frame.core.side
            } else {
                1.0
            };
            plane.area((left, -side * near), (right, side * frame.half_width))
        }
        View::All | View::Side => plane.area(
            (scene.reach.left, frame.top + 2.2),
            (scene.reach.right, frame.lowest_tip - 0.6),
        ),
    }
}

/// The size of a sheet and what it shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paper {
    /// Width, px.
    pub width: f64,
    /// Height, px.
    pub height: f64,
    /// Which views.
    pub view: View,
    /// First or third angle.
    pub first_angle: bool,
    /// Whether a title block stands at the bottom.
    pub titled: bool,
}

impl Paper {
    fn usable(&self) -> f64 {
        let title = if self.titled {
            title_block::HEIGHT + 8.0
        } else {
            0.0
        };
        self.height - title
    }
}

/// Arranges the views of a scene on a sheet.
#[must_use]
pub fn arranged(scene: &Scene, paper: &Paper, widths: &dyn TextWidth) -> Arrangement {
    if paper.view == View::All {
        all(scene, paper, widths)
    } else {
        single(scene, paper, widths)
    }
}

fn single(scene: &Scene, paper: &Paper, widths: &dyn TextWidth) -> Arrangement {
    let height = paper.usable();
    let px = CAPTION + 2.0 * RAIL + legend::ROW + 4.0;
    let scale_for = |box_in: &Area| {
        ((paper.width - 2.0 * MARGIN) / box_in.width())
            .min((height - px) / box_in.height())
            .clamp(SMALLEST, LARGEST)
    };
    let guess = scale_for(&guessed(scene, paper.view));
    let box_in = extent(scene, paper.view, guess, widths);
    let scale = scale_for(&box_in);
    let slack_x = paper.width - box_in.width() * scale;
    let slack_y = (height - px - box_in.height() * scale).max(0.0);
    let area = Area::sized(
        point(0.5 * slack_x, CAPTION + RAIL + 0.5 * slack_y),
        box_in.width() * scale,
        box_in.height() * scale,
    );
    let placed = placed(
        paper.view,
        &box_in,
        area,
        scale,
        (6.0, paper.width - 6.0),
        true,
    );
    Arrangement {
        views: vec![placed],
        key: Area {
            left: 6.0,
            top: height - legend::ROW,
            right: paper.width - 6.0,
            bottom: height,
        },
        upright: false,
        scale,
    }
}

/// A view in its place, in a column between two ends, with rails or without.
fn placed(
    view: View,
    box_in: &Area,
    area: Area,
    scale: f64,
    (left, right): (f64, f64),
    is_railed: bool,
) -> Placed {
    let plane = Plane {
        scale,
        origin: point(
            area.left - box_in.left * scale,
            area.top - box_in.top * scale,
        ),
        down: view == View::Plan,
    };
    let rails = is_railed.then(|| {
        let at = |top: f64, jog: f64, above: bool| Rail {
            left,
            right,
            top,
            jog,
            above,
        };
        [
            at(area.top - tags::HEIGHT - 6.0, area.top + 4.0, true),
            at(area.bottom + 6.0, area.bottom - 2.0, false),
        ]
    });
    let up = if is_railed { RAIL + 6.0 } else { 8.0 };
    Placed {
        view,
        plane,
        area,
        rails,
        caption: point(area.left.max(8.0), area.top - up),
        caption_end: right,
    }
}

fn all(scene: &Scene, paper: &Paper, widths: &dyn TextWidth) -> Arrangement {
    let height = paper.usable();
    let px = 2.0 * CAPTION + 2.0 * RAIL + ROW_GAP + 10.0;
    let sizes = |boxes: &[Area; 3]| {
        let [side, front, plan] = boxes;
        let left = side.left.min(plan.left);
        let right = side.right.max(plan.right);
        let top = side.top.min(front.top);
        let bottom = side.bottom.max(front.bottom);
        Area {
            left,
            top,
            right,
            bottom,
        }
    };
    let scale_for = |boxes: &[Area; 3]| {
        let block = sizes(boxes);
        let across = block.width() + boxes[1].width();
        let down = block.height() + boxes[2].height();
        ((paper.width - 2.0 * MARGIN - COLUMN_GAP) / across)
            .min((height - px) / down)
            .clamp(SMALLEST, LARGEST)
    };
    let views = [View::Side, View::Front, View::Plan];
    let guess = scale_for(&views.map(|view| guessed(scene, view)));
    let boxes = views.map(|view| extent(scene, view, guess, widths));
    let scale = scale_for(&boxes);
    let block = sizes(&boxes);
    let slack_x =
        paper.width - 2.0 * MARGIN - COLUMN_GAP - scale * (block.width() + boxes[1].width());
    let slack_y = height - px - scale * (block.height() + boxes[2].height());
    let columns = Columns {
        paper,
        gap: COLUMN_GAP + 0.4 * slack_x.max(0.0),
        margin: MARGIN + 0.3 * slack_x.max(0.0),
        spare: slack_y.max(0.0),
        height,
        scale,
    };
    columns.filled(&block, &boxes)
}

/// Columns and rows of a sheet with three views.
struct Columns<'a> {
    paper: &'a Paper,
    gap: f64,
    margin: f64,
    spare: f64,
    height: f64,
    scale: f64,
}

impl Columns<'_> {
    fn filled(&self, block: &Area, boxes: &[Area; 3]) -> Arrangement {
        let k = self.scale;
        let (long, wide) = (block.width() * k, boxes[1].width() * k);
        let (tall, flat) = (block.height() * k, boxes[2].height() * k);
        let first = self.paper.first_angle;
        let (side_left, front_left) = if first {
            (self.margin, self.margin + long + self.gap)
        } else {
            (self.margin + wide + self.gap, self.margin)
        };
        let (side_top, plan_top) = if first {
            let top = CAPTION + RAIL + 0.3 * self.spare;
            (
                top,
                top + tall + RAIL + ROW_GAP + CAPTION + 0.3 * self.spare,
            )
        } else {
            let top = CAPTION + 0.3 * self.spare;
            (
                top + flat + ROW_GAP + CAPTION + RAIL + 0.3 * self.spare,
                top,
            )
        };
        let split = if first {
            front_left - 0.5 * self.gap
        } else {
            side_left - 0.5 * self.gap
        };
        let (before, behind) = ((6.0, split - 4.0), (split + 4.0, self.paper.width - 6.0));
        let (side_rail, front_rail) = if first {
            (before, behind)
        } else {
            (behind, before)
        };
        let at = |box_in: &Area, left: f64, top: f64, from: &Area| {
            Area::sized(
                point(
                    left + (box_in.left - from.left) * k,
                    top + (box_in.top - from.top) * k,
                ),
                box_in.width() * k,
                box_in.height() * k,
            )
        };
        // Side and front share a height, side and plan a length.
        let side_box = Area {
            top: block.top,
            bottom: block.bottom,
            ..boxes[0]
        };
        let front_box = Area {
            top: block.top,
            bottom: block.bottom,
            ..boxes[1]
        };
        let side = at(&side_box, side_left, side_top, block);
        let front = at(&front_box, front_left, side_top, &front_box);
        let plan_from = Area {
            left: block.left,
            ..boxes[2]
        };
        let plan = at(&boxes[2], side_left, plan_top, &plan_from);
        let key_top = if first { plan_top - 14.0 } else { 8.0 };
        let key_bottom = if first {
            self.height - 4.0
        } else {
            plan_top + flat
        };
        Arrangement {
            views: vec![
                placed(View::Side, &side_box, side, k, side_rail, true),
                placed(View::Front, &front_box, front, k, front_rail, true),
                // In the side view's column.
                placed(View::Plan, &boxes[2], plan, k, side_rail, false),
            ],
            key: Area {
                left: front_left,
                top: key_top,
                right: front_left + wide,
                bottom: key_bottom,
            },
            upright: true,
            scale: k,
        }
    }
}
