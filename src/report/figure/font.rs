//! The font everything is lettered in, carried in the program: DejaVu Sans, regular and bold.
//!
//! Its license stands beside it, in `src/report/font/LICENSE-DejaVu.txt`.

use std::sync::OnceLock;

use skrifa::charmap::Charmap;
use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::{FontRef, GlyphId, MetadataProvider};

static REGULAR: &[u8] = include_bytes!("../font/DejaVuSans.ttf");
static BOLD: &[u8] = include_bytes!("../font/DejaVuSans-Bold.ttf");

/// Stands for a character the font lacks.
const REPLACEMENT: char = '\u{FFFD}';
/// Characters below this are looked up once and kept.
const KEPT: usize = 0x250;

/// One glyph: its number in the font and its advance in the font's units.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Glyph {
    /// Its number.
    pub(super) id: u32,
    /// How far it moves the pen, in the font's units.
    pub(super) advance: u16,
}

/// One of the font's two faces.
pub(super) struct Face {
    /// The font file.
    pub(super) data: &'static [u8],
    /// The font's units in one type size.
    pub(super) units: u16,
    tables: Option<(Charmap<'static>, GlyphMetrics<'static>)>,
    kept: Vec<Option<Glyph>>,
    replacement: Glyph,
}

/// The regular or the bold face; read on first use.
pub(super) fn face(bold: bool) -> &'static Face {
    static FACES: [OnceLock<Face>; 2] = [OnceLock::new(), OnceLock::new()];
    let data = if bold { BOLD } else { REGULAR };
    FACES[usize::from(bold)].get_or_init(|| Face::read(data))
}

impl Face {
    fn read(data: &'static [u8]) -> Self {
        let font = FontRef::new(data).ok();
        let whole = (Size::unscaled(), LocationRef::default());
        let tables = font
            .as_ref()
            .map(|font| (font.charmap(), font.glyph_metrics(whole.0, whole.1)));
        let units = font
            .as_ref()
            .map_or(1, |font| font.metrics(whole.0, whole.1).units_per_em);
        let mut face = Self {
            data,
            units,
            tables,
            kept: Vec::new(),
            replacement: Glyph::default(),
        };
        let low = (0..KEPT).map(|code| face.look_up(char::from_u32(code as u32)?));
        face.kept = low.collect();
        face.replacement = face.look_up(REPLACEMENT).unwrap_or_default();
        face
    }

    fn look_up(&self, character: char) -> Option<Glyph> {
        let (characters, widths) = self.tables.as_ref()?;
        let id = characters.map(character)?;
        let advance = widths.advance_width(id)?;
        // Advances are whole numbers of the font's units.
        (id != GlyphId::NOTDEF).then_some(Glyph {
            id: id.to_u32(),
            advance: advance as u16,
        })
    }

    /// The glyph of a character; `None` where the font lacks it.
    pub(super) fn glyph(&self, character: char) -> Option<Glyph> {
        match self.kept.get(character as usize) {
            Some(known) => *known,
            None => self.look_up(character),
        }
    }

    /// The glyph of a character, or the one that stands for what the font lacks.
    pub(super) fn drawn(&self, character: char) -> Glyph {
        self.glyph(character).unwrap_or(self.replacement)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Advances as a general font tool prints them from the hmtx tables of DejaVu 2.37.
    #[test]
    fn advances_are_those_of_the_font() {
        for (character, regular, bold) in [
            (' ', 651, 713),
            ('0', 1303, 1425),
            ('m', 1995, 2134),
            ('°', 1024, 1024),
            ('ψ', 1351, 1626),
        ] {
            let advance = |bold| face(bold).glyph(character).map(|glyph| glyph.advance);
            assert_eq!(advance(false), Some(regular), "{character}");
            assert_eq!(advance(true), Some(bold), "{character}");
        }
        assert_eq!(face(false).units, 2048);
        assert_eq!(face(true).units, 2048);
    }

    #[test]
    fn what_the_font_lacks_is_a_box() {
        let face = face(false);
        assert_eq!(face.glyph('日'), None);
        assert_eq!(Some(face.drawn('日')), face.glyph(REPLACEMENT));
        assert!(face.replacement.id > 0);
    }
}
