//! The catalogue: every word that a packet prints, by message, from one file for each language.
//!
//! Each message is a method of [`Words`] whose parameters are the message's variables, so that a message that does not exist, a variable that is
//! forgotten and a message that nobody prints are found by the compiler. That a catalogue holds just these messages is checked when it is read.

use std::collections::BTreeSet;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

/// The words in English.
const ENGLISH: &str = include_str!("../../assets/words/en.ftl");

/// The words in German.
const GERMAN: &str = include_str!("../../assets/words/de.ftl");

/// The words of a packet in one language.
pub struct Words {
    language: LanguageIdentifier,
    bundle: FluentBundle<FluentResource>,
}

/// What is wrong with a catalogue.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum CatalogueFault {
    /// It is no catalogue as Fluent understands them; what the reader said.
    Unreadable(String),
    /// This message is missing.
    Missing(&'static str),
    /// This message asks for a variable that nobody gives.
    UnknownVariable(&'static str),
    /// This message is never printed.
    Unknown(String),
}

impl Words {
    /// The languages in which there are words, by their codes of ISO 639.
    pub const LANGUAGES: [&str; 2] = ["en", "de"];

    /// The words in a language; `None` where there are none.
    #[must_use]
    pub fn of(language: &str) -> Option<Self> {
        match language {
            "en" => Some(Self::english()),
            "de" => Some(Self::read("de".parse().unwrap_or_default(), GERMAN).0),
            _ => None,
        }
    }

    /// The words in English.
    #[must_use]
    pub fn english() -> Self {
        // That the catalogue within the program is whole is a test, not a question at run time.
        Self::read("en".parse().unwrap_or_default(), ENGLISH).0
    }

    /// The words of a catalogue in any language.
    ///
    /// # Errors
    /// Everything that is missing, unknown or unreadable in it, in order.
    pub fn try_new(language: LanguageIdentifier, catalogue: &str) -> Result<Self, Vec<CatalogueFault>> {
        let (words, unreadable) = Self::read(language, catalogue);
        let mut faults: BTreeSet<CatalogueFault> = unreadable.into_iter().map(CatalogueFault::Unreadable).collect();
        for &(name, variables) in MESSAGES {
            match words.message(name, variables.iter().map(|&v| (v, FluentValue::from(1)))) {
                None => _ = faults.insert(CatalogueFault::Missing(name)),
                Some((_, complaints)) if complaints > 0 => _ = faults.insert(CatalogueFault::UnknownVariable(name)),
                Some(_) => {}
            }
        }
        let known: BTreeSet<String> = MESSAGES.iter().map(|(name, _)| id_of(name)).collect();
        faults.extend(
            ids_in(catalogue).filter(|id| !known.contains(*id)).map(|id| CatalogueFault::Unknown(id.to_owned())),
        );
        if faults.is_empty() { Ok(words) } else { Err(faults.into_iter().collect()) }
    }

    /// The language, as HTML and PDF name it: `en`.
    #[must_use]
    pub fn language(&self) -> String {
        self.language.to_string()
    }

    /// A list as it is read: "roof, lamp, and base".
    #[must_use]
    pub fn list<S: AsRef<str>>(&self, things: &[S]) -> String {
        self.joined(things, [Self::list_two, Self::list_more, Self::list_last])
    }

    /// Bare numbers as a list, kept apart from their own decimal signs: "8.5, 9, and 10" in English, "8,5; 9 und 10" in German.
    #[must_use]
    pub fn row<S: AsRef<str>>(&self, numbers: &[S]) -> String {
        self.joined(numbers, [Self::row_two, Self::row_more, Self::row_last])
    }

    /// Things joined by the messages for two, for one more, and for the last of several.
    fn joined<S: AsRef<str>>(
        &self,
        things: &[S],
        [two, more, last_of]: [fn(&Self, String, String) -> String; 3],
    ) -> String {
        let owned = |thing: &S| thing.as_ref().to_owned();
        match things {
            [] => String::new(),
            [one] => owned(one),
            [first, second] => two(self, owned(first), owned(second)),
            [first, middle @ .., last] => {
                let start = middle.iter().fold(owned(first), |list, next| more(self, list, owned(next)));
                last_of(self, start, owned(last))
            }
        }
    }

    fn read(language: LanguageIdentifier, catalogue: &str) -> (Self, Vec<String>) {
        let (resource, mut faults) = match FluentResource::try_new(catalogue.to_owned()) {
            Ok(resource) => (resource, Vec::new()),
            Err((resource, faults)) => (resource, faults.iter().map(ToString::to_string).collect()),
        };
        let mut bundle = FluentBundle::new_concurrent(vec![language.clone()]);
        // Isolating marks round every variable would be printed as boxes on paper.
        bundle.set_use_isolating(false);
        if let Err(doubled) = bundle.add_resource(resource) {
            faults.extend(doubled.iter().map(ToString::to_string));
        }
        (Self { language, bundle }, faults)
    }

    /// A message with its variables in place, and how many of its variables were not given.
    fn message<'v>(
        &self,
        name: &str,
        variables: impl Iterator<Item = (&'static str, FluentValue<'v>)>,
    ) -> Option<(String, usize)> {
        let pattern = self.bundle.get_message(&id_of(name))?.value()?;
        let mut arguments = FluentArgs::new();
        for (name, value) in variables {
            arguments.set(name, value);
        }
        let mut complaints = Vec::new();
        let words = self.bundle.format_pattern(pattern, Some(&arguments), &mut complaints).into_owned();
        Some((words, complaints.len()))
    }
}

/// The id in a catalogue of the message that a method prints.
fn id_of(name: &str) -> String {
    name.replace('_', "-")
}

/// The ids of the messages in a catalogue.
fn ids_in(catalogue: &str) -> impl Iterator<Item = &str> {
    catalogue
        .lines()
        .filter(|line| line.starts_with(|c: char| c.is_ascii_alphabetic()))
        .filter_map(|line| line.split_once('='))
        .map(|(id, _)| id.trim())
}

/// Makes a method of [`Words`] for each message, and the list of all of them.
macro_rules! messages {
    ($($name:ident($($variable:ident),*);)*) => {
        const MESSAGES: &[(&str, &[&str])] = &[$((stringify!($name), &[$(stringify!($variable)),*])),*];

        impl Words {$(
            #[allow(clippy::extra_unused_lifetimes, reason = "messages without variables have no use for it")]
            pub(crate) fn $name<'v>(&self, $($variable: impl Into<FluentValue<'v>>),*) -> String {
                let variables: [(&'static str, FluentValue<'v>); _] = [$((stringify!($variable), $variable.into())),*];
                // A catalogue is only taken when it is whole.
                self.message(stringify!($name), variables.into_iter()).map(|(words, _)| words).unwrap_or_default()
            }
        )*}
    };
}

messages! {
    // Lists and measures
    list_two(first, second);
    list_more(first, rest);
    list_last(first, last);
    row_two(first, second);
    row_more(first, rest);
    row_last(first, last);
    measure_decimal();
    measure_inches(number);
    measure_centimetres(number);
    measure_millimetres(number);
    measure_yards(number);
    measure_by(width, height);
    measure_less(least);
    measure_degrees(number);

    // The head of a packet
    packet_edition(edition);
    packet_dated(edition, date);
    facts_title();
    facts_finished();
    facts_block(name);
    facts_block_copies(size, copies);
    facts_allowance();
    facts_fabrics();
    facts_foundations();
    facts_foundations_value(foundations, sheets);
    facts_sections();
    facts_seams();
    facts_seams_value(seams, joins);
    facts_match_points();
    facts_skill();
    facts_level();
    facts_level_value(number, name);
    level_name(number);
    level_how(points, pieces, joins, match_points, tips, exact);
    facts_count(count);
    facts_terms();
    nav_title();
    running(edition, size);
    page_of(page, pages);
    front_title();
    front_caption(block);
    map_caption();
    map_plain();
    foundations_title();
    foundations_reduced();
    foundations_why_mirrored();
    foundation_caption(name, count);

    // Before you begin
    begin_title();
    glossary_title();
    glossary_word();
    glossary_meaning();
    glossary_allowance();
    glossary_allowance_is(allowance);
    glossary_section();
    glossary_section_is();
    glossary_piece();
    glossary_piece_is();
    glossary_ease();
    glossary_ease_is();
    glossary_unit();
    glossary_unit_is();
    glossary_join();
    glossary_join_is();
    glossary_partial();
    glossary_partial_is();
    glossary_inset();
    glossary_inset_is();
    glossary_foundation();
    glossary_foundation_is();
    glossary_seam_line();
    glossary_seam_line_is();
    glossary_cutting_line();
    glossary_cutting_line_is();
    glossary_match_point();
    glossary_match_point_is();
    glossary_tip();
    glossary_tip_is();
    glossary_right_side();
    glossary_right_side_is();
    glossary_selvedge();
    glossary_selvedge_is();
    glossary_bias();
    glossary_bias_is();
    glossary_print();
    glossary_print_is();
    glossary_nest();
    glossary_nest_is();
    glossary_plain();
    glossary_plain_is();
    glossary_pieced();
    glossary_pieced_is();
    tools_title();
    tool_machine();
    tool_needle();
    tool_paper(sheets);
    tool_cutter();
    tool_ruler();
    tool_card();
    tool_glue();
    tool_iron();
    tool_light();
    tool_ripper();

    // Fabric and cutting
    fabrics_title();
    fabrics_intro();
    chart_pieces();
    chart_uses_of(uses);
    chart_bound_of(length);
    chart_shopping_how(usable, squaring, quarter, eighth);
    chart_title();
    chart_intro();
    chart_intro_print();
    chart_intro_plain();
    chart_intro_strip();
    chart_fabric();
    chart_buy();
    chart_uses();
    chart_uses_value(length);
    chart_buy_fat_eighth(length);
    chart_buy_fat_quarter(length);
    chart_shopping_caption();
    chart_pieces_caption(fabric);
    chart_strips_caption(fabric);
    chart_size();
    chart_count();
    chart_for();
    chart_for_plain(label);
    chart_for_strip(label);
    chart_strip();
    chart_strip_one(number);
    chart_strip_range(first, last);
    chart_strip_width();
    chart_strip_pieces();
    chart_strip_run(count, size);
    chart_strip_run_turned(count, size);
    chart_pieces_total(count);
    chart_one_way();
    chart_two_way();
    chart_one_way_across();
    chart_two_way_across();

    // The technique on one page
    primer_title();
    primer_order();
    primer_sides_title();
    primer_sides();
    primer_first_title();
    primer_first(allowance);
    primer_fold_title();
    primer_fold(allowance);
    primer_lay_title();
    primer_lay();
    primer_sew_title();
    primer_sew();
    primer_look_title();
    primer_look(allowance);
    primer_trim_title();
    primer_trim();
    primer_paper_title();
    primer_paper();
    primer_machine();

    // Printing
    print_title();
    print_scale();
    print_once();
    print_check();
    print_rest();
    print_sheets_caption();
    print_sheet();
    print_times();
    print_times_value(times);
    print_holds();
    print_part(mark, number, parts);
    print_corrections_caption();
    print_bar_inches(length);
    print_bar_centimetres(length);
    print_at();
    print_percent(number);
    print_why(width, off);
    sheet_name(number);
    sheet_in_text(number);
    sheet_bookmark(sheet, marks);

    // Units
    units_title();
    units_intro();
    units_caption(block);
    units_unit();
    units_sew();
    units_pieces();
    units_trimmed();
    units_trimmed_each(length);
    units_plain();
    units_cut(size);
    units_no_paper();

    // Steps: a block and its foundations
    steps_title();
    steps_title_of(block);
    see_sheet(marks, sheet);
    steps_block(block);
    steps_block_copies(block, copies);
    steps_convention();
    steps_foundation(mark, unit);
    steps_one();
    steps_batch(count);
    steps_batch_alike(count);
    steps_batch_several(foundations, count);
    steps_of(count, mark);
    steps_hands(mirrored, first, count);
    steps_colours();
    steps_stands(section, sections);
    steps_parts(mark, parts);
    steps_key();
    steps_mirrored(others);
    steps_recoloured(others);
    steps_places(places);
    steps_bias(sections, count);
    steps_bias_all();

    // Steps: a section
    section_heading(section, fabric);
    section_fabric(fabric, marks);
    fact_of(fact, marks);
    fact_cut();
    fact_cut_turned(size, turn);
    fact_cut_exact(size);
    fact_line();
    fact_line_value(length);
    fact_past();
    fact_past_value(left, right);
    fact_past_both(length);
    first_teach(section, allowance);
    first_teach_light();
    first_short(section, allowance);
    first_long(length);
    first_shown();
    first_print();
    first_only();
    plain_count(count);
    plain_cut(allowance);
    plain_print();
    plain_several();
    plain_look(mark, allowance);
    pieced_sew(count, strips, length, allowance);
    pieced_press(fabric);
    pieced_press_at(first, second, fabric);
    pieced_print();
    pieced_first(section, count, allowance);
    pieced_lay(section, count, allowance);
    pieced_tick(count);
    pieced_look(count);
    move_fold();
    move_lay();
    move_sew();
    move_look();
    move_pin();
    move_cut();
    move_mark();
    move_piece();
    move_match();
    move_press();
    free(sections);
    fold_teach(section, allowance);
    fold(section, allowance);
    lay_teach(width);
    lay(width);
    reach(left, right);
    reach_none();
    reach_left(length);
    reach_right(length);
    reach_both(length);
    reach_teach(section, left, right);
    reach_teach_both(length);
    lay_askew(degrees, why, section, allowance);
    lay_askew_short(degrees, section, allowance);
    lay_askew_trim(allowance);
    lay_print();
    lay_several();
    sew_teach_through();
    sew_teach_inside();
    sew_teach_left();
    sew_teach_right();
    sew_through();
    sew_inside();
    sew_left();
    sew_right();
    sew_hands(mirrored);
    flip_teach();
    flip();
    look_lines_edge(section, allowance, lines, count);
    look_lines(section, allowance, lines, count);
    look_edge(section);
    flip_press_teach();
    flip_press();
    care_label();
    care_turn(degrees);
    care_stray(length);
    care_turn_none();

    // Steps: trimming
    trim_heading();
    trim_teach();
    trim_short();
    trim_rectangle(size);
    trim_square(size);
    trim_edges(lengths);
    trim_edges_equal(length);
    trim_edges_hands(lengths, first, mirrored);
    trim_keep(marks);

    // Steps: joins
    joins_heading();
    joins_intro();
    joins_key();
    joins_key_leaves();
    joins_copies(copies);
    join_heading(number, left, right);
    join_heading_named(number, name, left, right);
    join_place(name, mark);
    join_made(number);
    join_end_upper();
    join_end_lower();
    join_end_left();
    join_end_right();
    join_lay_teach(left, right, length);
    join_lay(left, right, length);
    join_lay_without(left, right, length);
    join_plain_both(allowance);
    join_plain_one(plain, count, allowance);
    join_match(count, places, end);
    join_match_without(count, places, end);
    join_nests(count);
    join_nests_at(places);
    join_same_way(places, why);
    join_why_units();
    join_why_stated();
    join_why_tips();
    join_why_given_up();
    join_mixed(places);
    join_lies_open(places);
    join_feel(count);
    join_tip(count, places, end);
    join_look();
    join_look_plain();
    join_look_without(paper, allowance);
    join_look_plain_without(paper, allowance);
    join_paper_strip();
    join_press_toward(side);
    join_press_open();
    join_spin(count, places, end);
    join_thick(layers, places, end);
    join_paper_out(places, count);
    join_pin_teach();
    ring_first_heading(number, left, right);
    ring_rest_heading(number, left, right);
    ring_rest_heading_named(number, name, left, right);
    ring_line_first(first, whole);
    ring_line_rest(rest, whole);
    ring_first_lay(member, centre, edge, last, open, closed);
    ring_first_sew(closed, far);
    ring_first_paper();
    ring_first_press();
    ring_lay(member, centre, before, length);
    ring_fold_away(number, first);
    ring_rest_lay(first, centre, last, open);
    ring_rest_sew(open);
    ring_flat(centre);
    ring_care(last);
    inset_between_heading(number, left, right);
    inset_leg_heading(number, left, right);
    inset_leg_heading_named(number, name, left, right);
    inset_between_sew(outer, allowance, first);
    inset_paper();
    inset_crease(side);
    inset_crease_open();
    inset_leg_lay(first, second, third, length, number, outer);
    inset_leg_sew(outer);
    inset_turn(first, third, length, outer);
    inset_turn_sew(outer);
    inset_press_one(number, side);
    inset_press(sides);
    inset_press_open();
    inset_spun();
    inset_care();
    block_heading();
    block_measures(size);
    block_measures_square(size);
    block_measures_box(size);
    block_paper();
    block_one_paper();
    note_label();
    own_label();
    figure_printed_caption_of(mark);
    figure_flipped_caption();
    figure_flipped_caption_of(mark);
    figure_front_caption_of(mark);

    // At the end
    colouring_title();
    colouring_intro();
    colourings_title();
    colourings_intro();
    colourings_drawn();
    colourings_block(block, colouring);
    colourings_change(from, to);
    publisher_title();
    contact_title();
    report_fault_title();
    report_fault(edition);
    report_fault_where();
    editions_title();
    editions_this(edition);
    editions_edition();
    editions_date();
    editions_what();
    made_with();

    // The tester's edition
    tester_stamp();
    tester_title();
    tester_intro();
    tester_name();
    tester_printer();
    tester_bar();
    tester_machine();
    tester_time_cutting();
    tester_units_caption();
    tester_should();
    tester_measured();
    tester_time();
    tester_remarks();
    tester_short_caption();
    tester_section();
    tester_short();
    tester_edge();
    tester_unclear();
    tester_other();

    // Cautions
    cautions_title();
    cautions_intro();
    caution_cutter();
    caution_iron();
    caution_print();
    caution_tape();
    caution_bleed();
    caution_needle();
    caution_pins();
    caution_magnets();
    caution_children();
    planned(thorough, proved);
    footer_made();
    footer_made_metric();
    // Sheets and foundations
    foundation_name_long(mark, unit, title, edition);
    foundation_name_middle(mark, unit, edition);
    foundation_name_short(mark, edition);
    edge_to(marks);
    edge_to_more(marks);
    edge_of_block();
    edge_of_block_short();
    part_name(mark, number, parts);
    part_name_long(mark, number, parts, title, edition);
    part_glue(number);
    part_cut(number);
    sheet_title(number, sheets);
    sheet_number(number, sheets);
    sheet_edition(edition, size);
    sheet_times(times);
    sheet_side();
    sheet_check();
    sheet_ticks();
    sheet_ticks_stop();
    sheet_strips();
    bar_inches(number);
    bar_centimetres(number);
    not_to_size();

    // On a screen
    screen_skip();
    screen_parts();
    screen_done();
    screen_count(done, count);
    screen_next();
    screen_kept();
    screen_not_kept();
    screen_anew();
    screen_anew_question(part);
    screen_anew_yes();
    screen_anew_no();

    // Figures
    print_up();
    print_two_way();
    figure_front_caption();
    figure_printed_caption();
    figure_strips_caption();
    figure_where(place);
    figure_section(number, fabric);
    front_alt(block, fabrics);
    coloured_alt(block, fabrics);
    colouring_alt(block, count);
    map_alt(block, units);
    map_alt_many(block, count);
    map_unit(mark, name, place);
    map_unit_plain(mark, name, place);
    foundation_alt(name, sections);
    foundation_alt_many(name, count);
    figure_front_alt(mark, section, fabric, place);
    figure_plain_alt(mark, fabric, size, allowance);
    figure_printed_first_alt(mark, fabric, allowance);
    figure_printed_first_pieced(mark, fabrics, allowance);
    figure_printed_alt(mark, section, sewn);
    figure_piece_beneath(fabric, allowance);
    figure_piece_askew(fabric, section);
    figure_piece_pieced(fabrics, section);
    figure_strips_alt(section, fabrics, length);
    figure_reach(left, right);
    figure_reach_both(length);
    figure_several();
    figure_plan_alt(block, papers, joins);
    figure_stuck_alt(block, areas, seams);
    figure_join_title(number);
    figure_join_first_title(number);
    figure_join_rest_title(number);
    figure_order_title(first, last);
    figure_units(count);
    figure_join_alt(number, left, right);
    figure_join_points(count, places, end);
    figure_join_tips(count, places, end);
    figure_join_press(side);
    figure_join_press_open();
    figure_join_first();
    figure_join_rest();
    figure_join_point();
    figure_order_ring_alt(centre, members);
    figure_order_inset_alt(first, second, third);
    figure_order_caption();
    primer_figure(number);
    primer_printed_side();
    primer_plain_side();
    primer_allowance();
    primer_sides_alt();
    primer_first_alt();
    primer_fold_alt();
    primer_lay_alt();
    primer_sew_alt();
    primer_look_alt();
    primer_trim_alt();
    primer_paper_alt();

    // Layers of the printed document
    layer_fabric();
    layer_seams();
    layer_cutting();
    layer_marks();
}

#[cfg(test)]
mod tests;
