//! The list of all codes.

/// Whether a fault stops the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Nothing can be built until it is mended.
    Error,
    /// The pattern can be built; the author should know.
    Warning,
    /// Nothing is wrong; the author may like to know.
    Hint,
}

macro_rules! codes {
    ($($severity:ident { $($variant:ident = $slug:literal,)* })*) => {
        /// The code of a fault. Its slug is what faults print, what `allow` and `explain` take, and the name of its manual page.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Code {
            $($(#[doc = concat!("`", $slug, "`")] $variant,)*)*
        }

        impl Code {
            /// All codes: errors, warnings, hints.
            pub const ALL: &[Self] = &[$($(Self::$variant,)*)*];

            /// The code as it is printed.
            #[must_use]
            pub const fn slug(self) -> &'static str {
                match self { $($(Self::$variant => $slug,)*)* }
            }

            /// Whether the code is an error, a warning or a hint.
            #[must_use]
            pub const fn severity(self) -> Severity {
                match self { $($(Self::$variant => Severity::$severity,)*)* }
            }

            /// The manual page: what is wrong, a bad and a good example, what to do.
            #[must_use]
            pub const fn page(self) -> &'static str {
                match self { $($(Self::$variant => include_str!(concat!("pages/", $slug, ".md")),)*)* }
            }
        }
    };
}

codes! {
    Error {
        // The text itself.
        SourceTooLarge = "source-too-large",
        NotText = "not-text",
        EmptySource = "empty-source",
        PastedCharacter = "pasted-character",
        NotUnderstood = "not-understood",
        Unclosed = "unclosed",
        DecimalComma = "decimal-comma",
        NumbersSideBySide = "numbers-side-by-side",
        NumberOutOfRange = "number-out-of-range",
        BadColour = "bad-colour",
        BadDate = "bad-date",
        BadLength = "bad-length",
        // Statements.
        MissingStatement = "missing-statement",
        DoubledStatement = "doubled-statement",
        MisplacedStatement = "misplaced-statement",
        UnknownWord = "unknown-word",
        // Names and files.
        UnknownName = "unknown-name",
        DoubledName = "doubled-name",
        ReservedName = "reserved-name",
        UnclearPlace = "unclear-place",
        UseNotFound = "use-not-found",
        UseOutside = "use-outside",
        UseCycle = "use-cycle",
        // Pictures.
        PictureNotFound = "picture-not-found",
        PictureTooLarge = "picture-too-large",
        PictureUnfit = "picture-unfit",
        // Sizes and counts.
        FinishedUnclear = "finished-unclear",
        FinishedRatio = "finished-ratio",
        CountOutOfRange = "count-out-of-range",
        SewnDiffers = "sewn-differs",
        // Points and outlines.
        NoSuchPoint = "no-such-point",
        CrossingOutline = "crossing-outline",
        ConcaveOutline = "concave-outline",
        DegenerateOutline = "degenerate-outline",
        OutlineOffGrid = "outline-off-grid",
        // Sections of a unit.
        SectionNumbers = "section-numbers",
        CornerOutsideUnit = "corner-outside-unit",
        SectionGap = "section-gap",
        SectionOverlap = "section-overlap",
        LineThroughFirst = "line-through-first",
        NothingBeyond = "nothing-beyond",
        NotLeftOver = "not-left-over",
        NotOneSeam = "not-one-seam",
        PiecedUnfit = "pieced-unfit",
        CutUnfit = "cut-unfit",
        NotHalfASquare = "not-half-a-square",
        // Units of a block.
        UnitOutsideBlock = "unit-outside-block",
        BlockGap = "block-gap",
        UnitOverlap = "unit-overlap",
        CannotJoin = "cannot-join",
        JoinNotStraight = "join-not-straight",
        NotARing = "not-a-ring",
        RingOrder = "ring-order",
        NotAnInset = "not-an-inset",
        PlainJoinWillDo = "plain-join-will-do",
        SeamLoose = "seam-loose",
        PatchUnfit = "patch-unfit",
        AreaUnnamed = "area-unnamed",
        AreaNamedTwice = "area-named-twice",
        CannotPlan = "cannot-plan",
        UnitNameAstray = "unit-name-astray",
        WishTooLate = "wish-too-late",
        AlreadyJoined = "already-joined",
        PlainUnfit = "plain-unfit",
        // The packet.
        MissingLetter = "missing-letter",
        LargerThanMat = "larger-than-mat",
        // What is published.
        EditionUnfit = "edition-unfit",
        EditionTooSmall = "edition-too-small",
        NothingChanged = "nothing-changed",
    }
    Warning {
        NarrowSection = "narrow-section",
        ShortSeam = "short-seam",
        ThickPoint = "thick-point",
        SharpTip = "sharp-tip",
        DarkUnderLight = "dark-under-light",
        NearMiss = "near-miss",
        NearPoints = "near-points",
        LargeFoundation = "large-foundation",
        WideCut = "wide-cut",
        LittleTurn = "little-turn",
        OffTheRuler = "off-the-ruler",
        UnusedName = "unused-name",
        UnusedAllow = "unused-allow",
    }
    Hint {
        FewerPapers = "fewer-papers",
    }
}

impl Code {
    /// The code with this slug.
    #[must_use]
    pub fn from_slug(slug: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|code| code.slug() == slug)
    }
}
