//! What the `house:` block holds, key by key.

use crate::document::{At, Named, Word, record};
use crate::input::schema::Several;
use crate::quantity::{
    Area, Length, LinearTransmittance, Mass, Offset, Pitch, PointTransmittance,
    ThermalTransmittance,
};

record! {
    /// The whole house on its trailer. Sides are `left`, `right`, `front` (the tongue's end) and
    /// `back`, as seen by the driver.
    pub struct HouseText {
        /// The frame's deck: out to out of the walls' framing.
        "deck" deck: optional DeckText,
        /// Which floor, and how it sits on the frame.
        "floor" floor: optional FloorText,
        /// Which walls, and how high.
        "walls" walls: optional WallsText,
        /// Which roof, and its shape.
        "roof" roof: optional RoofText,
        /// Windows, doors and skylights.
        "openings" openings: optional Vec<OpeningText>,
        /// Net areas by assembly, instead of those that follow from the measures.
        "areas" areas: optional Named<At<Area>> ["0.1 ft²", "100000 ft²"],
        /// Details, or stated psi-values, by the length they run.
        "edges" edges: optional Vec<EdgeText>,
        /// Rods, bolts and screws through insulation.
        "bolts" bolts: optional Vec<BoltText>,
        /// Whatever else the trailer carries.
        "allowances" allowances: optional Vec<AllowanceText>,
        /// The trailer.
        "trailer" trailer: optional TrailerText,
        /// The limits of the road where it travels.
        "road" road: optional RoadText,
    }
}

record! {
    /// The frame's deck.
    pub struct DeckText {
        /// From front to back.
        "length" length: needed At<Length> ["1 ft", "98 ft"],
        /// From side to side.
        "width" width: needed At<Length> ["4 in", "39 ft"],
    }
}

record! {
    /// The floor of the house.
    pub struct FloorText {
        /// Which assembly.
        "assembly" assembly: needed At<Word>,
        /// Its lowest layer above the frame's top; left out, the one its strips lie under.
        "above-frame" above_frame: optional At<Word>,
    }
}

record! {
    /// The walls.
    pub struct WallsText {
        /// Which assembly, where a side doesn't say otherwise.
        "assembly" assembly: needed At<Word>,
        /// Framed height on the subfloor, plates included; under a sloped roof at its low side.
        "height" height: needed At<Length> ["20 in", "19.5 ft"],
        /// The layer whose outer face stands at the deck's edge; left out, the studs'.
        "at-deck-edge" at_deck_edge: optional At<Word>,
        /// How far trim and fasteners stand out beyond the siding.
        "trim" trim: optional At<Offset> ["0 in", "40 in"],
        /// What one side has of its own.
        "sides" sides: optional SidesText,
    }
}

record! {
    /// Walls by side.
    pub struct SidesText {
        /// Left, as seen by the driver.
        "left" left: optional SideText,
        /// Right.
        "right" right: optional SideText,
        /// At the tongue's end.
        "front" front: optional SideText,
        /// At the far end.
        "back" back: optional SideText,
    }
}

record! {
    /// One side's wall.
    pub struct SideText {
        /// Which assembly.
        "assembly" assembly: optional At<Word>,
        /// Framed height of the high side of a shed roof.
        "height" height: optional At<Length> ["20 in", "19.5 ft"],
        /// How far trim and fasteners stand out beyond the siding.
        "trim" trim: optional At<Offset> ["0 in", "40 in"],
    }
}

record! {
    /// The roof.
    pub struct RoofText {
        /// Which assembly.
        "assembly" assembly: needed At<Word>,
        /// `flat`, `shed` or `gable`.
        "shape" shape: needed At<Word>,
        /// Rise over run, such as `2 in 12`.
        "pitch" pitch: optional At<Pitch> ["1 in 100", "48 in 12"],
        /// The low side of a shed roof; left out, the lower wall.
        "low-side" low_side: optional At<Word>,
        /// A gable's ridge: `lengthwise`, as when left out, or `crosswise`.
        "ridge" ridge: optional At<Word>,
        /// The layer that stands on the walls; left out, the rafters'.
        "on-walls" on_walls: optional At<Word>,
        /// How far the roof reaches beyond the siding, gutters and drip edges included.
        "overhangs" overhangs: optional OverhangsText,
        /// What stands above the roof's highest line: a fan, a vent, a pipe left in place.
        "stands-above" stands_above: optional At<Offset> ["0 in", "20 ft"],
    }
}

record! {
    /// Overhangs by side, level, beyond the siding.
    pub struct OverhangsText {
        /// Left.
        "left" left: optional At<Offset> ["0 in", "19.5 ft"],
        /// Right.
        "right" right: optional At<Offset> ["0 in", "19.5 ft"],
        /// Front.
        "front" front: optional At<Offset> ["0 in", "19.5 ft"],
        /// Back.
        "back" back: optional At<Offset> ["0 in", "19.5 ft"],
    }
}

record! {
    /// Windows or doors of one size.
    pub struct OpeningText {
        /// Your name for it.
        "name" name: required At<Word>,
        /// `left`, `right`, `front`, `back` or `roof`.
        "in" place: needed At<Word>,
        /// Width of the rough opening.
        "width" width: needed At<Length> ["0.4 in", "39 ft"],
        /// Height of the rough opening.
        "height" height: needed At<Length> ["0.4 in", "39 ft"],
        /// How many; 1 if left out.
        "count" count: optional At<u32> ["1", "1000"],
        /// Whole-window U-value, frame included.
        "u-value" u_value: optional At<ThermalTransmittance> ["U-0.002", "U-5"],
        /// Weight of one.
        "weight" weight: optional At<Mass> ["0.1 lb", "10000 lb"],
        /// Its middle, from the deck's front.
        "at" at: optional At<Offset> ["-100 ft", "200 ft"],
    }
}

record! {
    /// A detail, or a psi-value, along a length of the house.
    pub struct EdgeText {
        /// A detail of this file.
        "detail" detail: optional At<Word>,
        /// A name, where no detail is drawn.
        "name" name: optional At<Word>,
        /// Its linear transmittance by inside dimensions, where no detail is drawn.
        "psi" psi: optional At<LinearTransmittance> ["-2 W/mK", "10 W/mK"],
        /// The sides it runs along: `left`, `right`, `front`, `back` or `all`.
        "along" along: optional Several<At<Word>>,
        /// Its length, instead of the sides.
        "length" length: optional At<Length> ["0.4 in", "1000 ft"],
        /// The strip of the floor that it stands for; a generated detail knows it.
        "instead-of" instead_of: optional At<Word>,
    }
}

record! {
    /// Rods, bolts or screws of one kind.
    pub struct BoltText {
        /// Your name for them.
        "name" name: required At<Word>,
        /// How many.
        "count" count: needed At<u32> ["1", "1000"],
        /// Diameter of the shank.
        "diameter" diameter: needed At<Length> ["0.02 in", "4 in"],
        /// What they are made of.
        "metal" metal: needed At<Word>,
        /// The assembly they go through.
        "in" assembly: needed At<Word>,
        /// The layer of insulation they go through.
        "through" through: needed At<Word>,
        /// How deep they reach into it, where not all through.
        "embedded" embedded: optional At<Length> ["0.02 in", "78 in"],
        /// Ends that touch steel: `none`, as when left out, `one` or `both`.
        "ends-on-steel" ends_on_steel: optional At<Word>,
        /// Heat lost through one, from a calculation of your own.
        "chi" chi: optional At<PointTransmittance> ["0 W/K", "10 W/K"],
    }
}

record! {
    /// A weight that isn't part of an assembly.
    pub struct AllowanceText {
        /// What it is.
        "name" name: required At<Word>,
        /// Its weight.
        "weight" weight: needed At<Mass> ["0.1 lb", "100000 lb"],
        /// Its middle, from the deck's front; less than nothing on the tongue.
        "at" at: optional At<Offset> ["-100 ft", "200 ft"],
    }
}

record! {
    /// The trailer.
    pub struct TrailerText {
        /// Top of the frame above the road.
        "deck-height" deck_height: optional At<Length> ["1 in", "10 ft"],
        /// Its own weight.
        "weight" weight: optional At<Mass> ["10 lb", "200000 lb"],
        /// What it may weigh loaded.
        "rating" rating: optional At<Mass> ["10 lb", "200000 lb"],
        /// Layers and strips of the floor that its own weight includes already.
        "includes" includes: optional Several<At<Word>>,
        /// Middle of its own weight, from the deck's front.
        "weight-at" weight_at: optional At<Offset> ["-100 ft", "200 ft"],
        /// The coupler, ahead of the deck's front.
        "tongue" tongue: optional At<Length> ["1 in", "50 ft"],
        /// Middle of the axles, from the deck's front.
        "axles-at" axles_at: optional At<Offset> ["-100 ft", "200 ft"],
    }
}

record! {
    /// The limits of the road.
    pub struct RoadText {
        /// Greatest width.
        "width" width: optional At<Length> ["1 ft", "60 ft"],
        /// Greatest height.
        "height" height: optional At<Length> ["1 ft", "60 ft"],
        /// Greatest length, tongue included.
        "length" length: optional At<Length> ["1 ft", "500 ft"],
    }
}
