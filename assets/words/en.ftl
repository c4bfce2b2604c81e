# Every word that a packet prints, in English.
#
# A second language is a file like this one: the same messages with the same variables. Messages stand in the order in which a packet prints them.
# Lengths come ready made ("2½ in"); numbers that a sentence counts by come as numbers, so that the language's own plurals apply.

## Lists and measures

list-two = { $first } and { $second }
list-more = { $first }, { $rest }
list-last = { $first }, and { $last }
# Bare numbers in a row, which a decimal comma must not run into.
row-two = { $first } and { $second }
row-more = { $first }, { $rest }
row-last = { $first }, and { $last }

measure-decimal = .
measure-inches = { $number }{"\u00A0"}in
measure-centimetres = { $number }{"\u00A0"}cm
measure-millimetres = { $number }{"\u00A0"}mm
measure-yards = { $number }{"\u00A0"}yd
measure-by = { $width }{"\u00A0"}×{"\u00A0"}{ $height }
measure-less = less than { $least }
measure-degrees = { $number }°

## The head of a packet

packet-edition = Edition { $edition }
packet-dated = Edition { $edition }, { $date }

facts-title = At a glance
facts-finished = Finished size
facts-block = { $name }
facts-block-copies = { $size }, sewn { $copies ->
    [one] once
   *[other] { $copies } times
}
facts-allowance = Seam allowance
facts-fabrics = Fabrics
facts-foundations = Papers
facts-foundations-value = { $foundations } to sew, on { $sheets ->
    [one] one sheet
   *[other] { $sheets } sheets
}
facts-sections = Pieces
facts-seams = Seams
facts-seams-value = { $seams }, of which { $joins ->
    [0] none joins units
    [one] one joins units
   *[other] { $joins } join units
}
facts-match-points = Match points
facts-skill = Skill
facts-level = Level
facts-level-value = { $number } of 5, { $name }
level-name = { $number ->
    [1] for a first time
    [2] easy
    [3] for steady hands
    [4] demanding
   *[other] for the patient
}
level-how = How the level is counted, on one of each block: { $pieces ->
    [one] a point for its one piece
   *[other] a point for each of { $pieces } pieces
}, two for each join ({ $joins }) and tip ({ $tips }), three for each match point ({ $match_points }), two more for each piece that must be laid to within five degrees ({ $exact }): { $points } points. Up to 15 are level 1, up to 40 level 2, up to 80 level 3, up to 150 level 4.
facts-count = { $count }
facts-terms = Terms of use

nav-title = In this packet
running = edition { $edition }  ·  { $size }
page-of = { $page } of { $pages }

front-title = The block
front-caption = { $block }, seen from the front
map-caption = Which unit goes where, seen from the front
map-plain = no paper

foundations-title = Foundations
foundations-reduced = Not to size: print the foundations from the PDF at 100 %.
foundations-why-mirrored = The drawing is the mirror image of the front: you sew on the printed side, and the fabric lies on the other.
foundation-caption = { $name }: sew { $count }

## Before you begin

begin-title = Before you begin
glossary-title = Words in this packet
glossary-word = Word
glossary-meaning = What it means
glossary-allowance = Allowance
glossary-allowance-is = the { $allowance } of fabric beyond every seam line
glossary-section = Section
glossary-section-is = a numbered area of a unit; the number is its place in the order of sewing
glossary-piece = Piece, rough cut
glossary-piece-is = the fabric for a section, and the larger shape that it is first cut to
glossary-ease = Ease
glossary-ease-is = what a rough cut has to spare beyond the allowance
glossary-unit = Unit
glossary-unit-is = a part of the block that is sewn on one paper, with a letter for its mark
glossary-join = Join
glossary-join-is = a seam between two units, or between groups of them
glossary-partial = Partial seam
glossary-partial-is = the first seam of a ring round a centre: sewn in part, and finished when the ring is closed
glossary-inset = Inset corner
glossary-inset-is = three parts that meet in a point; one of them is set into the corner of the other two
glossary-foundation = Foundation or paper
glossary-foundation-is = the printed paper of a unit
glossary-seam-line = Seam line
glossary-seam-line-is = the line on which a piece is sewn on; its thin continuation only shows where to sew on to the cutting line. Round the unit it is the heavy line, the edge of the unit, on which it is joined
glossary-cutting-line = Cutting line
glossary-cutting-line-is = the dashed line round the unit, one allowance outside the heavy one
glossary-match-point = Match point
glossary-match-point-is = a point of a join where seams of both sides meet; a filled dot on the paper
glossary-tip = Tip
glossary-tip-is = a point of a join where a shape of one side ends; an open dot on the paper
glossary-right-side = Right side
glossary-right-side-is = the side of the fabric that shows when the block is done; the other is the wrong side
glossary-selvedge = Selvedge
glossary-selvedge-is = the firm edge that runs along both sides of the fabric as it is sold
glossary-bias = Bias
glossary-bias-is = slanting to the threads, where fabric stretches
glossary-print = One-way, two-way print
glossary-print-is = a print with an up, or with a direction but no up, such as a stripe
glossary-nest = Lock
glossary-nest-is = allowances that point opposite ways lie against each other and hold the point
glossary-plain = Plain piece
glossary-plain-is = a piece that is cut exactly to size and joined as it is, without paper
glossary-pieced = Pieced section
glossary-pieced-is = a section of several strips, which are sewn together first and go on as one piece; a thin dashed line on the paper shows each seam between them
tools-title = Tools and notions
tool-machine = A sewing machine with a straight stitch that can be set to about 1.5 mm
tool-needle = A fresh needle, 80/12 to 90/14, and a fine neutral thread
tool-paper = { $sheets ->
    [one] One sheet
   *[other] { $sheets } sheets
} of thin printing paper and one more to try, and a printer that prints at 100 %
tool-roll = { $length } of a roll of thin paper, { $width } wide, and a little more to try; and a printer for it that prints at 100 %
tool-cutter = Rotary cutter and mat, or scissors for fabric; an old blade or other scissors for paper
tool-ruler = A ruler with fine marks, sixteenths of an inch or millimetres, as long as the bar on the sheets
tool-card = A postcard or thin ruler to fold the paper over
tool-glue = Flat pins, and glue that washes out
tool-iron = An iron, used dry, and something firm to press on
tool-light = A lamp or a window to look through the paper
tool-ripper = A seam ripper, for the one seam that went astray

## Fabric and cutting

fabrics-title = Fabrics
fabrics-intro = The number in the ring stands for the fabric on the papers and in this packet; in pictures each fabric has a hatching of its own, so that grey prints tell them apart. In print, the box beside it is for a cutting of yours.
chart-pieces = Pieces

chart-title = Fabric and cutting
chart-intro = Cut the strips first, straight across the width of the cloth, then the pieces from the strips; a piece that is narrower than its strip is trimmed to its size. Pin its label to it as you cut. The sizes are rough: they hold the allowance and some ease, and the unit is trimmed only when it is sewn.
chart-intro-print = Where a fabric’s print has a direction it is otherwise: the first figure runs across the print and the second up it. Cut those pieces with the print upright; each step says which edge goes to the line.
chart-intro-plain = Where it says “plain piece”, cut exactly to the size that stands there: these pieces have no paper, and nothing of them is trimmed later. Their first figure is the longer side, unless their print has a direction.
chart-intro-strip = Where it says “strip”, cut the width of the strip exactly: it is sewn to others on both sides. Only its ends have ease.
chart-fabric = Fabric
chart-buy = Buy
chart-uses = Strips use
chart-uses-value = { $length } of the length
chart-uses-of = the strips take { $uses }
chart-buy-fat-eighth = { $length }, or a fat eighth
chart-buy-fat-quarter = { $length }, or a fat quarter
chart-shopping-caption = What to buy
chart-pieces-caption = { $fabric }: pieces to cut
chart-strips-caption = { $fabric }: strips, across the width of the fabric
chart-size = Cut size
chart-count = How many
chart-for = For sections
chart-for-plain = { $label } (plain piece)
chart-for-strip = { $label } (strip, exactly as wide)
chart-strip = Strip
chart-strip-one = { $number }
chart-strip-range = { $first }–{ $last }
chart-strip-width = Width
chart-strip-pieces = From each strip, end to end
chart-strip-run = { $count } of{"\u00A0"}{ $size }
chart-strip-run-turned = { $count } of{"\u00A0"}{ $size }, turned
chart-pieces-total = { $count ->
    [one] { $count } piece
   *[other] { $count } pieces
}
chart-one-way = One-way print, its up along the selvedge: keep it upright
chart-two-way = Two-way print: upright or upside down
chart-one-way-across = One-way print: its up runs from selvedge to selvedge
chart-two-way-across = Two-way print: it runs from selvedge to selvedge
shape-half = half of a { $side } square
shape-quarter = quarter of a { $side } square
shape-trapezoid = { $size }, with { $trims }
shape-trim = { $length } off at the { $corner ->
    [upper-left] upper left
    [upper-right] upper right
    [lower-left] lower left
   *[lower-right] lower right
}
chart-fat-quarters = { $count ->
    [one] a fat quarter
   *[other] { $count } fat quarters
}
chart-fat-eighths = { $count ->
    [one] a fat eighth
   *[other] { $count } fat eighths
}
chart-buy-nothing = nothing: your own cloth is enough
chart-buy-besides = { $amount }, besides your own cloth
chart-buy-motifs = as much as the motifs take
chart-buy-width = at { $width } wide { $amount }
chart-from-bolt = cut from cloth { $width } wide
chart-from-fat-quarters = cut from fat quarters, of each { $size } usable
chart-from-fat-eighths = cut from fat eighths, of each { $size } usable
chart-bound-reached = no plan of strips takes less
chart-bound = no plan of strips takes less than { $length }
chart-bound-sheets = no plan takes fewer of them than { $count }
chart-in-place = In place of
chart-colouring-caption = What to buy for “{ $title }”
chart-price = this plan takes { $length } more cloth than the shortest known, for fewer widths of strips
chart-how-bolt = Amounts are counted on the usable width, without selvedges. They hold { $squaring } for squaring up and { $percent } % for shrinkage, and are rounded up to what shops cut.
chart-how-fat = Of a fat quarter { $quarter } are counted, of a fat eighth { $eighth }: their strips are shorter, so cut more of them for the same pieces.
chart-how-fats = Fat quarters and eighths are counted with { $percent } % for shrinkage.
chart-total = All together { $pieces }, of { $fabrics ->
    [one] one fabric
   *[other] { $fabrics } fabrics
}.
chart-total-motifs = { $count ->
    [one] One of them is cut round a motif: it comes from no strip and is not in the amount to buy. How much cloth it takes
   *[other] { $count } of them are cut round motifs: they come from no strip and are not in the amounts to buy. How much cloth they take
} depends on how far apart the motifs of the print lie.
chart-people = All counts and amounts are for { $people } people together. A table at the end tells what goes into each kit.
chart-intro-size = In each size the first figure is the side that will lie along the seam, the second the side away from it.
chart-intro-drawing = The drawing shows the cloth to scale: the number of each strip at its left, its width at its right, in grey the selvedges. Equal strips are drawn once. The first figure of a size lies along the strip, or where it says “turned” the second.
chart-intro-letters = Small letters in a drawing stand for the pieces of the table below it.
chart-intro-squares = For halves and quarters of squares cut the whole square first, then from corner to corner: once for halves, twice for quarters.
chart-intro-slants = Where corners are trimmed, what comes off is told for the piece as it lies right side up with the edge for its seam below: measure along the upper or the lower edge, and cut from there to the other end of that side. Two such pieces lie head to tail and share one slanting cut.
chart-intro-hand = A shape that differs from its mirror image is cut from a single layer, right side up.
chart-intro-motif = A piece with a motif is fussy cut: each motif by its own window. Print the windows at 100 %, lay one on the right side of the fabric with the motif in it, upright, and cut along its outer line. The windows are files of this packet, named at the end of each fabric.
chart-count-how = { $count }: { $how }
chart-windows = Windows for these motifs: { $windows }.
chart-how-motif = { $count ->
    [one] fussy cut, one motif, by its window
   *[other] fussy cut, { $count } motifs, by their window
}
chart-how-half = { $count ->
    [one] one square, cut once from corner to corner: 2 half-squares
   *[other] { $count } squares, each cut once from corner to corner: 2 half-squares each
}
chart-how-quarter = { $count ->
    [one] one square, cut twice from corner to corner: 4 quarters
   *[other] { $count } squares, each cut twice from corner to corner: 4 quarters each
}
chart-how-pairs = { $count ->
    [one] one pair, head to tail, from { $size }
   *[other] { $count } pairs, head to tail, each from { $size }
}
chart-how-single = { $count ->
    [one] one from { $size }
   *[other] { $count }, each from { $size }
}
chart-left-over = { $count } left over
chart-one-layer = single layer, right side up
chart-lettered = { $letter } ({ $size })
chart-letter = In the drawing
chart-drawing-width = { $count ->
    [1] { $width }
   *[other] { $width } × { $count }
}
chart-drawing-scale = { $length } of cloth
chart-own-length = { $length } off the bolt
chart-own-scrap = scrap, { $size }
chart-own-strip = { $width } wide: { $content }.
chart-own-unused = nothing
chart-own-enough = Your own cloth is enough: there is nothing to buy.
chart-own-short = Your own cloth is not enough: buy { $amount } besides.
chart-own = Your own cloth
chart-own-gives = Strips and pieces to cut from it
chart-own-caption = { $fabric }: what is cut from your own cloth
chart-kits = In each of the { $people } kits
chart-in-kit = In each kit
labels-title = Labels for the pieces
labels-intro = Cut these labels apart and pin one to each stack of pieces as you cut it.
labels-intro-kits = These labels are for one kit: print this part once for each of the { $people } people, and put the pieces with their labels into each one’s bag.
labels-count = { $count ->
    [one] one piece
   *[other] { $count } pieces
}
labels-count-kit = { $count ->
    [one] one piece in each kit
   *[other] { $count } pieces in each kit
}
figure-cloth-title = { $sheets ->
    [1] { $fabric }: the strips on the cloth
   *[other] { $fabric }: the strips, on { $sheets } pieces of cloth like this
}
figure-cloth-alt = The cloth of { $fabric } to scale, { $across } wide, with { $count ->
    [one] one strip
   *[other] { $count } strips
} across it and the pieces in the strips{ $sheets ->
    [1] .
   *[other] ; { $sheets } pieces of cloth are cut like this.
} The tables tell the same in words.
window-title = Window for { $section }
window-head = { $title }, { $block }, section { $section }: { $fabric }
window-how = Print at 100 % and check the squares with a ruler. Cut out the outer line and the window within. Lay it on the right side of the fabric, printing up, the motif upright with its middle at the cross.
window-alt = A window at exact size for the piece of section { $section }, { $fabric }, from the front: the grey area is the finished section, a dashed line round it is where the piece is cut, a cross marks the middle of the motif and an arrow its up.
window-inch = 1 in
window-centimetres = 2 cm

## The technique on one page

primer-title = Sewing on paper, in short
primer-order = The fabric is sewn to the paper, piece by piece in the order of the numbers, each with one straight seam on a printed line. The line of a section is the one between it and the sections with smaller numbers. These eight moves come again and again. The words are explained on the last pages.
primer-sides-title = Two sides
primer-sides = You sew on the printed side; the fabric lies on the plain side. That is why the printing is the mirror image of the block: it looks the wrong way round, and is right.
primer-first-title = Piece 1
primer-first = It is not sewn to anything. It lies on the plain side, wrong side to the paper, and reaches past section 1 by more than { $allowance } all round. A dab of washable glue or a flat pin holds it.
primer-fold-title = Fold and trim
primer-fold = Fold the paper right across, so that the crease runs along the next line; the edge of a card helps. Where earlier stitches cross the crease, first tear the paper loose from them for a finger’s breadth; do not unpick. Trim the fabric that stands past the fold to { $allowance }: the next piece now has an edge to lie on.
primer-lay-title = Lay the next piece
primer-lay = Turn the fabric toward you. The next piece goes right side down on what is there, its edge on the trimmed edge, its body pointing back over what is sewn, away from its section. Pin it there, away from the line, and look how far it reaches past both ends of the line.
primer-sew-title = Sew on the line
primer-sew = Unfold the paper and sew with the printed side up. Where the line ends at the edge of the unit, sew on to the cutting line; where it ends inside, stop two or three stitches past it.
primer-look-title = Flip, look, press
primer-look = Flip the piece open and hold the unit to the light: it must cover its section and { $allowance } more on every side, or reach the cutting line. Then press, dry, from the fabric side.
primer-trim-title = Trim
primer-trim = When the last piece is on, trim paper and fabric together on the cutting line, the outer one. Never trim on a seam line.
primer-paper-title = Take the paper out
primer-paper = Only when the unit’s neighbours are sewn on: until then the paper keeps bias edges from stretching. Crease it along the stitches and tear, with a thumbnail on the seam.
primer-machine = A short stitch, about 1.5 mm, perforates the paper so that it tears away easily. If a seam went astray, unpick it now: a seam lets you change one piece, a finished unit does not.

## Printing

print-title = Print and check
print-scale = Print at 100 %: “actual size”, not “fit to page”. A PDF viewer calls the pages with the papers Sheet{"\u00A0"}1, Sheet{"\u00A0"}2, and so on; where a print dialogue asks for page numbers, the contents on the first page say where they begin.
print-once = Print sheet 1 once, and nothing else yet.
print-check = Lay a ruler on the bar at its foot. If it is off by more than the thickness of a line, find what you measure in the table below, print at that many per cent instead, and measure again; between two rows take what lies between. The one-inch square shows a gross error only.
print-rest = If sheet 1 came out true, keep it: it counts as one. Print all sheets as often as the list says, and cut the papers apart roughly, a finger’s breadth outside the cutting lines.
print-paper = The sheets with the papers are printed on { $paper }; all other pages are { $pages }.
print-paper-name = { $name } ({ $size })
print-paper-roll = a roll { $width } wide
print-last-changed = On every paper stands the edition in which it last changed, which may be lower than { $edition }. A paper that you printed earlier is good only where its edition is the same as on the paper here.
print-spares = Printed like this, you have more than you sew of { $spares }: they share a sheet with others. Keep them as spares, should a seam go astray.
print-fewest = These are the fewest sheets that all the papers fit on.
print-sheets-caption = How often to print each sheet
print-sheet = Sheet
print-times = Print
print-times-value = { $times ->
    [1] once
    [2] twice
   *[other] { $times } times
}
print-holds = What is on it
print-part = { $mark }, part { $number } of { $parts }
print-corrections-caption = If the bar is off
print-bar-inches = The bar of { $length } in measures
print-bar-centimetres = The bar of { $length } cm measures
print-at = Print at
print-percent = { $number } %
print-why = Why it matters: printed at 98 %, a block { $width } wide comes out { $off } too small, and nothing cut to size fits it.
sheet-name = Sheet { $number }
sheet-in-text = sheet{"\u00A0"}{ $number }
sheet-bookmark = { $sheet }: { $marks }

## Units

units-title = Units
units-intro = A unit is sewn on one piece of paper. Its mark and the numbers of its sections are the same on the papers, in the cutting chart and in the steps. Where a unit needs several papers, as mirror images or in other fabrics, these have a small letter besides: Aa, Ab.
units-caption = The units of { $block }
units-unit = Unit
units-sew = Sew
units-pieces = Pieces
units-trimmed = Trimmed, it measures (edges from the longest on, clockwise as seen from the front)
units-trimmed-each = each { $length }
units-plain = A mark without numbers is a plain piece: it is cut exactly to size and has no paper.
units-cut = { $size }, cut exactly
units-no-paper = no paper

## Steps: a block and its foundations

steps-title = Sewing, step by step
steps-convention = “Left” and “right” of a line are always meant like this: the printed side faces you, and the paper is turned so that the new section lies above the line, away from you. The figures are turned so.
steps-title-of = Sewing: { $block }
see-sheet = The paper of { $marks } is on { $sheet }
steps-block = { $block }
steps-block-copies = { $block }: sew { $copies ->
    [one] one block
   *[other] { $copies } blocks
}
steps-foundation = { $mark } · { $unit }
steps-one = You need one of these.
steps-batch = You need { $count } of these. Work on them side by side: do each step on { $count ->
    [2] both
   *[other] all { $count }
} before you go on to the next step. It is quicker, and a mistake shows before it is made { $count ->
    [2] twice
   *[other] { $count } times
}.
steps-batch-alike = { $count } of these are needed: do each step on { $count ->
    [2] both
   *[other] all { $count }
} before you go on to the next step.
steps-batch-several = Work on these papers side by side: { $foundations }. Do each step on { $count ->
    [2] both
   *[other] all { $count }
} before you go on to the next step. They are joined later.
steps-of = { $count } of { $mark }
steps-hands = { $mirrored } { $count ->
    [one] is
   *[other] are
} the mirror image of { $first }: left and right change places there, and the steps say both. Keep the two stacks apart.
steps-colours = Their fabrics differ: each step says which goes where.
steps-stands = Where a step says { $section }, it speaks of { $sections } alike.
steps-parts = { $mark } is printed in { $parts } parts; the small map on each shows in grey where it belongs. Make it one paper first, in the order of their numbers: cut each part where it says so, lay it on its neighbour, printed sides up, every cross on the one with the same letter, and glue it; tape would melt under the iron.
steps-key = In the figures of the printed side you look through the paper: grey is what is sewn; red, with a heavily dashed edge, is the new piece as it lies beneath; the heavy line is the stitching, and the line of dashes and dots is the fold.
steps-mirrored = This is the mirror image of { $others }: the same numbers, the other way round. Keep the two stacks apart.
steps-recoloured = It is the same drawing as { $others } in other fabrics.
steps-places = Places in the block: { $places }.
steps-bias = { $count ->
    [one] The outer edge of { $sections } runs on the bias and stretches
   *[other] The outer edges of { $sections } run on the bias and stretch
}: there lift the iron, do not push it, and leave the paper in.
steps-bias-all = All outer edges run on the bias and stretch: there lift the iron, do not push it, and leave the paper in.

## Steps: a section

section-heading = { $section } · { $fabric }
section-fabric = { $fabric } ({ $marks })
fact-of = { $fact }, { $marks }
fact-cut = Cut
fact-cut-turned = { $size } where the unit is turned { $turn }
fact-cut-exact = { $size }, exactly
fact-cut-motif = { $size }, fussy cut by its window
fact-line = Line
fact-line-value = { $length } long
fact-past = Past its ends
fact-past-value = { $left } left, { $right } right
fact-past-both = { $length } at each end

first-teach = Take the paper and turn the printed side away from you. Put the piece on the plain side, wrong side to the paper and right side toward you, so that it covers section { $section } and reaches more than { $allowance } past it all round.
first-teach-light = Hold it up to a window or a lamp to see the lines through the paper, and shift the piece until it is right. Then fix it with a flat pin or a dab of washable glue, in the middle of the section and away from every line.
first-short = On the plain side of the paper, wrong side down over section { $section }, reaching more than { $allowance } past it all round. Check it against the light and fix it.
first-long = The figure shows which way its { $length } sides run.
first-shown = The figure shows how it lies.
first-print = Turn it so that its print points the right way: see the arrow on the paper.
first-only = This unit is one single piece.
plain-count = { $count ->
    [one] You need one of this plain piece
   *[other] You need { $count } of this plain piece
}. It has no paper, and nothing is sewn to it before it is joined.
plain-cut = Exactly to this size, which holds the allowance of { $allowance } on every side: it is not trimmed later, so what is off here is off in the block.
plain-print = The print stands upright in the block: the first figure of the size runs across it, the second up it.
plain-several = Which way the print points depends on where the piece will stand: cut each size for its own place.
plain-look = Pin a slip with its mark to it: { $mark }. Its seams will run { $allowance } inside its edges, where the figure is dashed.
pieced-sew = First, without paper, sew { $strips } together { $count ->
    [2] into
   *[other] in this order into
} one piece: right sides together, their edges of { $length } even at both ends, { $allowance } from the edge, with a stitch of about 2{"\u00A0"}mm. Then set the machine back to the short stitch.
pieced-press = Press the allowances toward { $fabric }.
pieced-press-at = Between { $first } and { $second } press the allowances toward { $fabric }.
pieced-print = Mind the prints: in the figure the piece lies as it will be seen.
pieced-first = On the plain side of the paper, wrong side down over section { $section }. Hold it against the light and bring { $count ->
    [one] its seam exactly onto the thin dashed line
   *[other] its seams exactly onto the thin dashed lines
} of { $section }; it reaches more than { $allowance } past the section all round. Fix it with a flat pin or a dab of washable glue, away from every line.
pieced-lay = The figure shows the piece flipped open. Unfold the paper and turn the fabric toward you. Hold the piece in front of section { $section } as it will look when it is finished, right side toward you: against the light { $count ->
    [one] its seam lies exactly on the thin dashed line
   *[other] its seams lie exactly on the thin dashed lines
} of { $section }, and it reaches more than { $allowance } past the section all round, past the line too. Pin it along the line, then turn it over on those pins, so that it lies right side down on what is there, and turn the printed side up.
pieced-tick = { $count ->
    [one] Where the seam must cross the line, the paper has a tick: a pin pushed through there shows whether it does.
   *[other] Where the seams must cross the line, the paper has ticks: pins pushed through there show whether they do.
}
pieced-look = { $count ->
    [one] Its seam must run along the thin dashed line.
   *[other] Its seams must run along the thin dashed lines.
}

move-fold = Fold.
move-lay = Lay.
move-sew = Sew.
move-look = Look.
move-pin = Pin.
move-cut = Cut.
move-mark = Mark.
move-piece = Piece.
move-match = Line up.
move-press = Press.

free = First tear the paper loose from the stitches of { $sections } where they cross the coming fold.

fold-teach = Fold the paper right across, printed side to printed side, so that the crease runs along line { $section }; the edge of a postcard on the line helps. Trim the fabric that stands past the fold to { $allowance }.
fold = The crease runs right across the paper, along line { $section }. Trim the fabric past it to { $allowance }.

lay-teach = Turn the fabric toward you. Put the new piece right side down on what is there, its edge of { $width } exactly on the edge you have just trimmed; its body points back over what is sewn, away from its section. Pin it flat, away from the line, unfold the paper, and turn the printed side up.
lay = Right side down on what is there, its { $width } edge exactly on the trimmed edge. Pin it and unfold the paper.
lay-side = Right side down on what is there, its { $side ->
    [long] long
   *[short] short
} side along the line, exactly on the trimmed edge; the corner opposite points back over what is sewn. Pin it and unfold the paper.
lay-side-teach = Turn the fabric toward you. Put the new piece right side down on what is there, its { $side ->
    [long] long
   *[short] short
} side exactly on the edge you have just trimmed; the corner opposite points back over what is sewn, away from its section. Pin it flat, away from the line, unfold the paper, and turn the printed side up.
lay-motif = Before you pin it, hold paper and piece against the light, so that the motif lies in section { $section }, upright.
reach = It must reach { $left } past the left end of the line and { $right } past the right.
reach-none = It need not reach past the ends of the line.
reach-left = It must reach { $length } past the left end of the line; at the right it may end with it.
reach-right = It must reach { $length } past the right end of the line; at the left it may end with it.
reach-both = It must reach { $length } past each end of the line.
reach-teach = Look at the printed side, with section { $section } above the line: the piece must reach { $left } past the left end of the line and { $right } past the right end. If it does not, slide it along the trimmed edge. A pin pushed straight through each end of the line shows it.
reach-teach-both = Look at the printed side: the piece must reach { $length } past each end of the line. If it does not, slide it along the trimmed edge. A pin pushed straight through each end of the line shows it.

lay-askew = This piece does not lie along the line: it is turned { $degrees } to it{ $why ->
    [print] , so that its print points the right way
   *[grain] , so that its threads run straight with the block
}. The figure shows it flipped open. Unfold the paper and turn the fabric toward you. Hold the piece in front of section { $section } as it will look when it is finished, right side toward you, so that it covers the section and reaches more than { $allowance } past it all round, past the line too. Pin it along the line, then turn it over on those pins, so that it lies right side down on what is there, and turn the printed side up.
lay-askew-short = This piece too is turned { $degrees } to its line, and the figure shows it flipped open. Hold it in front of section { $section } as it will look, more than { $allowance } past it all round, pin it along the line, and turn it over on the pins.
lay-askew-trim = Before you flip it, trim its allowance to { $allowance } too.
lay-print = Mind the print: when the piece is flipped open, it must point as the arrow on the paper.
lay-several = Which way its print must point depends on where the unit will stand in the block: write the place on each paper before you begin, and draw on it which way is up there, as the map of the units shows.

sew-teach-through = Set the machine to a short stitch, about 1.5 mm, and do not backstitch. Stitch on the line with the printed side up, from cutting line to cutting line: both ends of this line lie on the edge of the unit.
sew-teach-inside = Set the machine to a short stitch, about 1.5 mm, and do not backstitch. Sew on the line with the printed side up. Begin and stop two or three stitches past the ends of the line; both lie inside the unit.
sew-teach-left = Set the machine to a short stitch, about 1.5 mm, and do not backstitch. Sew on the line with the printed side up: at the left end on to the cutting line, at the right end only two or three stitches past the end of the line.
sew-teach-right = Set the machine to a short stitch, about 1.5 mm, and do not backstitch. Sew on the line with the printed side up: at the right end on to the cutting line, at the left end only two or three stitches past the end of the line.
sew-through = On the line, from cutting line to cutting line.
sew-inside = On the line, two or three stitches past each end and no farther.
sew-left = On the line: at the left sew on as far as the cutting line, at the right stop two or three stitches past the end.
sew-right = On the line: at the right sew on as far as the cutting line, at the left stop two or three stitches past the end.
sew-hands = In { $mirrored } left and right change places.

flip-teach = Leave the paper flat. On the fabric side flip the piece open over the seam, crease it with a fingernail, and hold the unit to the light.
flip = Flip it open and hold it to the light.
look-lines-edge = It must cover { $section } and reach { $allowance } past the { $count ->
    [one] line
   *[other] lines
} of { $lines }; where { $section } lies on the edge of the unit, it must reach to the cutting line.
look-lines = It must cover { $section } and reach { $allowance } past the { $count ->
    [one] line
   *[other] lines
} of { $lines }.
look-edge = It must cover { $section } and reach to the cutting line all along the edge of the unit.
flip-press-teach = If it does, press it open with a dry iron from the fabric side. If it does not, unpick this one seam and lay the piece again.
flip-press = If it does, press.

care-label = Take care
care-turn = Lay it straight. If it is turned by more than { $degrees }, it no longer reaches everywhere.
care-stray = Lay it straight: where either end of its edge strays from the trimmed edge by more than { $length }, it no longer reaches everywhere.
care-turn-none = Lay it as straight as you can, or cut it larger: turned ever so little, it no longer reaches everywhere.

## Steps: trimming

trim-heading = Trim and measure
trim-teach = Turn the printed side up and trim paper and fabric together on the cutting line, the dashed outer line, with an old blade kept for paper.
trim-short = Trim on the cutting line.
trim-rectangle = The unit must now measure { $size }.
trim-square = The unit must now measure { $size } each way.
trim-edges = From the longest edge on, clockwise on the printed side, its edges must now measure { $lengths }.
trim-edges-equal = Each of its edges must now measure { $length }.
trim-edges-hands = From the longest edge on, clockwise in { $first } and anticlockwise in { $mirrored }, on the printed side, its edges must now measure { $lengths }.
trim-keep = Leave the paper in. If a mark has been cut away, write it on: { $marks }.

## Steps: joins

joins-heading = Joining the units
joins-intro = Join in this order. What join 4 makes is called group 4, unless a name stands before the colon. Lengths along a join are measured on the seam line, from the end that the step names, as you see it from the front. The words along the edges of a paper say what each is sewn to.
joins-key = In the figures crosses are the ends to pin, filled dots the points that meet, open dots the tips; the arrow shows to which side the allowances go, two arrows that they lie open.
joins-key-leaves = Where the order is shown, ringed numbers tell in what order the seams are sewn; what is dashed stays open at first.
joins-copies = Do each join { $copies } times, once for each block, before you go on to the next.
join-heading = Join { $number } · { $left } to { $right }
join-heading-named = Join { $number } · { $name }: { $left } to { $right }
join-place = { $name } ({ $mark })
join-made = group { $number }
join-end-upper = upper
join-end-lower = lower
join-end-left = left
join-end-right = right
join-lay-teach = { $left } and { $right } go right sides together along the seam, which is { $length } long: the papers are outside, on both sides. Push a pin straight through both papers at each end of the heavy line, so that it goes through the corner on both sides; hold the pins upright while you pin the seam flat next to them.
join-lay = { $left } and { $right } go right sides together along the seam of { $length }. Pin both ends through the corners of the heavy lines.
join-lay-without = { $left } and { $right } go right sides together along the seam of { $length }.
join-plain-both = Neither has paper along this seam: lay edge on edge, the ends even. Pin both ends, { $allowance } from the edges.
join-plain-one = { $plain } { $count ->
    [one] has
   *[other] have
} no paper: lay the cut edge on the trimmed edge of the other side, the ends even, and turn the paper up. Pin both ends through the corner of the heavy line on the paper; on the side without paper the pin comes out { $allowance } from both edges.
join-match = Seams of both sides meet { $count ->
    [one] at one point of this join
   *[other] at { $count } points of this join
}, { $places } from the { $end } end; { $count ->
    [one] a filled dot marks it
   *[other] filled dots mark them
} on both papers. Push a pin through both papers { $count ->
    [one] there, where its tick meets the heavy line, and pin close beside it.
   *[other] at each of them, where its tick meets the heavy line, and pin close beside it.
}
join-match-without = Seams of both sides meet { $count ->
    [one] at one point of this join
   *[other] at { $count } points of this join
}, { $places } from the { $end } end. On paper a filled dot marks it; on a side without paper its seam ends there. Push a pin through both { $count ->
    [one] there, and pin close beside it.
   *[other] at each of them, and pin close beside it.
}
join-nests = { $count ->
    [one] The allowances there point opposite ways: push them against each other until they lock, and they hold the point by themselves.
   *[other] The allowances point opposite ways at each of them: push them against each other until they lock.
}
join-nests-at = At { $places } the allowances of the two sides point opposite ways: push them against each other until they lock.
join-same-way = At { $places } the allowances of both sides point the same way and cannot lock: { $why }.
join-why-units = they lie as the order of sewing in the units has laid them
join-why-stated = the pattern says how an earlier join is pressed
join-why-tips = an earlier join is pressed away from its tips
join-why-given-up = with an earlier join pressed the other way, other points could not lock
join-mixed = At { $places } several seams of one side end, and their allowances do not all point one way, so they cannot lock.
join-lies-open = At { $places } the allowances of an earlier join lie open, and open allowances cannot lock.
join-feel = { $count ->
    [one] Where nothing locks, only the pin holds the point: see that it goes through the seam on both sides, and feel between finger and thumb that one seam lies exactly on the other.
   *[other] Where nothing locks, only the pins hold the points: see that each goes through the seam on both sides, and feel between finger and thumb that one seam lies exactly on the other.
}
join-tip = { $count ->
    [one] An open dot marks a tip, { $places } from the { $end } end. There is nothing to match there, but the stitching must run exactly through it, or the tip
   *[other] Open dots mark tips, { $places } from the { $end } end. There is nothing to match there, but the stitching must run exactly through them, or the tips
} { $count ->
    [one] is
   *[other] are
} cut off.
join-look = Take a few long stitches over the points, open the seam and look from the front. When all is where it should be, sew on the line through both papers, with the short stitch again, from edge to edge, and take the long stitches out.
join-look-plain = On the line through both papers, with the short stitch, from edge to edge.
join-look-without = Take a few long stitches over the points, open the seam and look from the front. When all is where it should be, sew { $paper ->
    [none] { $allowance } from the edges, with a stitch of about 2{"\u00A0"}mm
    [one] on the line, with the paper on top and the short stitch
   *[some] on the line where paper lies on top, and { $allowance } from the edges where none does, with the short stitch
}, from edge to edge, and take the long stitches out.
join-look-plain-without = { $paper ->
    [none] { $allowance } from the edges, with a stitch of about 2{"\u00A0"}mm
    [one] on the line, with the paper on top and the short stitch
   *[some] on the line where paper lies on top, and { $allowance } from the edges where none does, with the short stitch
}, from edge to edge.
join-paper-strip = Tear away the paper that lies beyond the stitching in this join’s allowance, and only that.
join-press-toward = The allowances go toward { $side }.
join-press-open = The allowances lie open, one to each side.
join-spin = Four seams come together { $places } from the { $end } end. { $count ->
    [one] Open the two or three stitches of the earlier joins that hold their allowances there, and let all allowances turn one way round: the crossing then lies flat. Past it those of this join lie toward the other side, and so they should.
   *[other] At each of these points open the two or three stitches of the earlier joins that hold their allowances there, and let all allowances turn one way round: the crossing then lies flat. Past each point those of this join lie toward the other side, and so they should.
}
join-thick = { $layers } layers lie on each other { $places } from the { $end } end: go slowly there, turn the wheel by hand if the needle labours, and grade the allowances a little.
join-paper-out = The paper of { $places } may come out now: { $count ->
    [one] it has
   *[other] they have
} neighbours on every side.

join-pin-teach = The papers are outside, on both sides. Push a pin straight through both papers at the end of the heavy line, so that it goes through the corner on both sides; hold it upright while you pin the seam flat next to it.

ring-first-heading = Join { $number }, the first part · { $left } to { $right }
ring-rest-heading = Join { $number }, the rest · { $left } to { $right }
ring-rest-heading-named = Join { $number }, the rest · { $name }: { $left } to { $right }
ring-line-first = { $first } of { $whole }
ring-line-rest = the other { $rest } of { $whole }
ring-first-lay = { $member } and { $centre } go right sides together along the edge of { $centre }, which is { $edge } long. The edge of { $member } is longer: it runs on past the { $open } end, where { $last } comes last. Pin the { $closed } end through the corners of both heavy lines.
ring-first-sew = On the line through both papers, with the short stitch, from the { $closed } edge to the tick with the bar, { $far } from the { $closed } end, and no further. Secure the end by sewing two or three stitches back. The rest of the seam stays open.
ring-first-paper = Along the stitching tear away the paper that lies beyond it in the allowance; along the open part leave it.
ring-first-press = Press only what is sewn.
ring-lay = { $member } goes right sides together with { $centre } and { $before }, whose edges lie in one line, along the seam of { $length }. Pin both ends through the corners of the heavy lines.
ring-fold-away = At the open part of join { $number } fold { $first } back, away from this seam, and pin it down, so that no stitch catches it.
ring-rest-lay = Unpin { $first } and lay its edge along { $centre } and { $last }, right sides together; the others fold out of the way. Pin the { $open } end through the corners of the heavy lines, and the seam flat as far as the stitching.
ring-rest-sew = On the line through both papers, with the short stitch: begin on the stitching, two or three stitches before the tick with the bar, and sew on to the { $open } edge.
ring-flat = All allowances round { $centre } now turn one way round.
ring-care = Stop at the tick. If this seam is sewn to its end, { $last } cannot go on: unpick it as far as the tick.

inset-between-heading = Join { $number }, up to the point · { $left } to { $right }
inset-leg-heading = Join { $number }, from the point · { $left } to { $right }
inset-leg-heading-named = Join { $number }, from the point · { $name }: { $left } to { $right }
inset-between-sew = On the line through both papers, with the short stitch, from the { $outer } edge to the point where the heavy lines turn, and no further. Stop there with the needle down, one allowance of { $allowance } before the raw edge, and secure the end by sewing two or three stitches back. Into the corner that is left comes { $first }.
inset-paper = Tear away the paper in this join’s allowance, past the point too, so that the layers can turn there.
inset-crease = Crease the allowances toward { $side } with a fingernail; press when the corner is closed.
inset-crease-open = Crease the allowances open with a fingernail; press when the corner is closed.
inset-leg-lay = { $first } goes right sides together with { $second } along the seam of { $length }; fold { $third } out of the way, its allowance too. Push a pin straight through both papers at the point: it comes out where the stitching of join { $number } stops. Pin the { $outer } end through the corners as well.
inset-leg-sew = Turn the wheel by hand and let the needle down in the point itself. Secure the first stitches, and sew on the line outward, through both papers, to the { $outer } edge.
inset-turn = Turn the layers about the point until { $first } lies right sides together with { $third } along the seam of { $length }; what is sewn already folds out of the way. Nothing is clipped: the allowances are free at the point. Pin the point and the { $outer } end through the corners.
inset-turn-sew = Let the needle down in the same point, secure the first stitches, and sew outward, to the { $outer } edge. Open it and look from the front: there is neither a hole at the point nor a pleat.
inset-press-one = the allowances of join { $number } toward { $side }
inset-press = Press from the point outward: { $sides }.
inset-press-open = Press all three seams open, from the point outward.
inset-spun = So they turn one way round the point, and it lies flat.
inset-care = Not one stitch past the point: it would pull a pleat. Not one short of it: it would leave a hole.

block-heading = The finished block
block-measures = Before it is sewn to anything, the block must measure { $size }.
block-measures-square = Before it is sewn to anything, the block must measure { $size } each way.
block-measures-box = Before it is sewn to anything, the block must measure { $size } at its widest and highest.
block-paper = Leave the remaining paper in until the block’s own neighbours are sewn on. If it stands alone, take the paper out now, from the middle outward, and press once more.
bias-edge = { $side ->
    [top] the top edge ({ $units })
    [right] the right edge ({ $units })
    [bottom] the bottom edge ({ $units })
    [left] the left edge ({ $units })
    [top-left] the upper left edge ({ $units })
    [top-right] the upper right edge ({ $units })
    [bottom-left] the lower left edge ({ $units })
   *[bottom-right] the lower right edge ({ $units })
}
bias-edges = { $count ->
    [one] { $edges } is cut on the bias and stretches: leave its paper on
   *[other] { $edges } are cut on the bias and stretch: leave their paper on
} until a border or a neighbour is sewn to it.
block-one-paper = The block is a single unit: there is nothing to join.

note-label = Note
own-label = From the designer
figure-printed-caption-of = Printed side, { $mark }
figure-flipped-caption = Printed side, flipped open
figure-flipped-caption-of = Printed side, { $mark }, flipped open
figure-front-caption-of = From the front, { $mark }

## At the end

colouring-title = Try your colours
colouring-intro = The block in outline, for crayons or for cuttings of your own fabrics.
colourings-title = Other colourings
colourings-intro = The same papers in other fabrics. What you cut and buy changes with them: ask for the packet of the colouring you like.
colourings-drawn = As in this packet
colourings-block = { $block }: { $colouring }
colourings-change = { $from } becomes { $to }
publisher-title = Terms and contact
contact-title = Contact
report-fault-title = If something is wrong
report-fault = If a piece came up short, a size does not agree or a sentence cannot be understood, tell the publisher. Say which edition you have ({ $edition }), which size and which section.
report-fault-where = Report it to:
editions-title = Editions
editions-this = This is edition { $edition }.
editions-edition = Edition
editions-date = Day
editions-what = What it brought
made-with = Every rough cut, match point and amount in this packet was computed from the drawing, and the sewing order was proved before it was printed.

## The tester's edition

tester-stamp = Tester’s edition: not to be passed on
tester-title = Tester’s report
tester-intro = Thank you for sewing this before anybody else does. Fill in what you can; a blank is better than a guess. What helps most is a measure, and the name of the section it belongs to.
tester-name = Your name
tester-printer = Printer and paper
tester-bar = The bar on sheet 1 measured
tester-machine = Machine, needle, stitch length
tester-time-cutting = Time for printing and cutting
tester-units-caption = The units, trimmed
tester-should = Should measure
tester-measured = Measured
tester-time = Time
tester-remarks = Remarks
tester-short-caption = Where a piece came up short
tester-section = Section
tester-short = Short by
tester-edge = At which edge or corner
tester-unclear = Which step did you have to read twice?
tester-other = What else should change before it is published?

## Cautions

cautions-title = Cautions
cautions-intro = The makers’ instructions for your machine, iron, cutter and fabric come first. These are the usual cautions, no substitute for them or for a doctor’s advice.
caution-cutter = Rotary cutters are razors. Close the blade after each cut, cut away from yourself, and keep your fingers off the edge of the ruler. Paper dulls a blade, and a dull blade slips: keep one for paper, and change it.
caution-iron = Irons burn and paper scorches: press dry, and never leave a hot iron alone.
caution-print = Toner and ink may come off under heat. Try a scrap first, and press from the fabric side.
caution-tape = Tape melts under an iron. Glue the parts of a long foundation together instead.
caution-bleed = Dark fabrics may bleed. Wash or test them before they lie next to light ones.
caution-needle = Stop the machine before your fingers come near the needle, and do not sew over pins.
caution-pins = Count your pins, and the bits of a broken needle, before and after.
caution-magnets = Keep magnetic pin bowls and the like away from implanted medical devices, and follow the device maker’s advice.
caution-children = Keep cutters, irons, needles and pins away from children and pets.

planned = { $thorough ->
    [yes] How this pattern comes apart into papers was found by a thorough search.
   *[no] How this pattern comes apart into papers was found by a search.
} { $proved ->
    [yes] That no fewer papers would do is proved.
   *[no] Fewer papers might do; that was not proved.
}
footer-made = Lengths are rounded to the nearest ¹⁄₁₆ in; how far a piece reaches past its line is rounded down, so that you can rely on it.
footer-made-metric = Lengths are rounded to the nearest millimetre; how far a piece reaches past its line is rounded down, so that you can rely on it.

## Sheets and foundations

foundation-mark-long = { $mark }  ·  { $title }, edition { $edition }
foundation-mark-middle = { $mark }  ·  edition { $edition }
foundation-name-long = { $mark }  ·  { $unit }  ·  { $title }, edition { $edition }
foundation-name-middle = { $mark }  ·  { $unit }  ·  edition { $edition }
foundation-name-short = { $mark }  ·  ed. { $edition }
edge-to = to { $marks }
edge-to-more = to { $marks } …
edge-of-block = edge of block
edge-of-block-short = edge
part-name = { $mark }  ·  part { $number } of { $parts }
part-name-long = { $mark }  ·  part { $number } of { $parts }  ·  { $title }, edition { $edition }
part-glue = glue part { $number } on top: its thick grey edge on the dash-dotted line, crosses on crosses
part-cut = cut along the thick grey edge; glue it on top of part { $number }
sheet-title = Sheet { $number } of { $sheets }
sheet-number = sheet { $number } of { $sheets }
sheet-edition = edition { $edition }  ·  { $size }
sheet-times = { $times ->
    [1] print once
    [2] print twice
   *[other] print { $times } times
}
sheet-side = Sew on this printed side; the fabric lies on the other. The drawing is the mirror image of the front.
sheet-check = Print at 100 %, not “fit to page”. Measure the square, and the bar at the foot of the page.
sheet-ticks = Ticks across the allowance: a filled dot is a match point, an open one a tip that the join must run through.
sheet-ticks-stop = Ticks across the allowance: a filled dot is a match point, an open one a tip that the join must run through; at a bar the first part of a seam stops.
sheet-strips = Thin dashes within a section show a seam of its fabric: do not sew on them.
bar-inches = { $number } in
bar-centimetres = { $number } cm
not-to-size = not to size – do not sew on this

## On a screen

screen-skip = Skip to the pattern
screen-parts = In this packet
screen-done = Done
screen-count = { $done } of { $count } done
screen-next = To the first step not done
screen-kept = What you tick and write on this page stays in this browser; nothing is sent.
screen-not-kept = This browser does not let the page remember: ticks and words last until the page is closed.
screen-anew = Begin anew
screen-anew-question = Begin “{ $part }” anew? Its ticks, and what you wrote in it, will be gone.
screen-anew-yes = Begin anew
screen-anew-no = Keep them

## Figures

# What a figure shows, for those who cannot see it. The caption beside it says what it is; these say what is in it.

print-up = up
print-two-way = print
figure-front-caption = From the front
figure-printed-caption = Printed side
figure-strips-caption = The strips, sewn together
figure-where = { $place ->
    [upper-left] at the upper left
    [upper] at the top
    [upper-right] at the upper right
    [left] at the left
    [right] at the right
    [lower-left] at the lower left
    [lower] at the bottom
    [lower-right] at the lower right
   *[middle] in the middle
}
figure-section = { $number } of { $fabric }

front-alt = The block { $block } as it looks from the front when it is finished, in { $fabrics }.
coloured-alt = The block { $block } from the front in another colouring: { $fabrics }.
colouring-alt = The outlines of the { $count } sections of { $block }, without colours or marks, to be coloured in.
map-alt = The block { $block } from the front, divided into its units: { $units }. Every section bears the mark of its unit and its number.
map-alt-many = The block { $block } from the front, divided into its { $count } units. Every section bears the mark of its unit and its number.
map-unit = { $mark } ({ $name }) { $place }
map-unit-plain = { $mark } ({ $name }, a plain piece) { $place }
foundation-alt = Foundation { $name }, much reduced, as it is printed: the mirror image of the front. Its sections: { $sections }.
foundation-alt-many = Foundation { $name } with its { $count } sections, much reduced, as it is printed: the mirror image of the front.

figure-front-alt = Foundation { $mark } from the front, { $section ->
    [1] with section 1 in its fabric
    [2] with sections 1 and 2 in their fabrics
   *[other] with sections 1 to { $section } in their fabrics
}. Section { $section }, { $place } of the unit, is outlined: it is now covered by { $fabric }.
figure-plain-alt = The plain piece { $mark } of { $fabric }, from the front: a rectangle of { $size }. A dashed line { $allowance } inside its edges shows where its seams will run.
figure-printed-first-alt = Foundation { $mark } from the printed side, as it is printed. The piece of { $fabric } lies beneath section 1 and reaches more than { $allowance } past it all round.
figure-printed-first-pieced = Foundation { $mark } from the printed side, as it is printed. The pieced piece of { $fabrics } lies beneath section 1, its seams on the dashed lines, and reaches more than { $allowance } past it all round.
figure-printed-alt = Foundation { $mark } from the printed side, turned so that section { $section } lies above its line. { $sewn ->
    [1] Section 1 is there already.
    [2] Sections 1 and 2 are sewn.
   *[other] Sections 1 to { $sewn } are sewn.
} The paper folds along the line, which is drawn in bold as far as it is stitched.
figure-piece-beneath = The piece of { $fabric } lies beneath what is sewn, its edge { $allowance } past the line.
figure-piece-askew = The piece of { $fabric } is shown as it will lie when it is flipped open, askew to the line, over section { $section }.
figure-piece-pieced = The pieced piece of { $fabrics } is shown as it will lie when it is flipped open, over section { $section }, its seams on the dashed lines.
figure-strips-alt = The strips of section { $section }, sewn together, from the front, in this order: { $fabrics }. Their seams are { $length } long; an arrow across each shows which way its allowances are pressed. A thin outline shows the section on them.
figure-reach = It reaches { $left } past the left end of the line and { $right } past the right end.
figure-reach-both = It reaches { $length } past each end of the line.
figure-several = How far it reaches depends on how the unit is turned in the block; one of its cuts is shown.

figure-plan-alt = Block { $block } from the front, as it is planned: { $papers ->
    [one] one paper
   *[other] { $papers } papers, each in a tint of its own
} with its sections numbered in the order of sewing, and { $joins ->
    [one] one join, drawn thick.
   *[other] { $joins } joins, drawn thick and numbered in the order of sewing.
}
figure-stuck-alt = Block { $block } from the front. { $areas } areas are tinted that no straight seam divides. { $seams ->
    [0] No seams that would free them were found.
    [one] One dashed line, carried on through an area, frees them.
   *[other] { $seams } dashed lines, carried on through areas, free them.
}
figure-join-title = Join { $number }
figure-join-first-title = Join { $number }, the first part
figure-join-rest-title = Join { $number }, the rest
figure-order-title = The order of join { $first } to join { $last }
figure-units = { $count } units
figure-join-alt = Join { $number } from the front, its two sides drawn a little apart. On one side: { $left }. On the other: { $right }. Crosses mark the ends to pin.
figure-join-points = { $count ->
    [one] A dot on both edges marks the point to match, { $places } from the { $end } end.
   *[other] Dots on both edges mark the points to match, { $places } from the { $end } end.
}
figure-join-tips = { $count ->
    [one] An open dot marks a tip { $places } from the { $end } end.
   *[other] Open dots mark tips { $places } from the { $end } end.
}
figure-join-press = An arrow shows that the allowances are pressed toward { $side }.
figure-join-press-open = Two arrows show that the allowances are pressed open.
figure-join-first = The solid line is what is sewn now; the dashed line stays open.
figure-join-rest = The thin line is sewn already, the bold one is the rest.
figure-join-point = A ring marks the point that no stitch passes.
figure-order-ring-alt = The ring round { $centre } from the front, drawn apart. Round it go { $members }. Ringed numbers tell the order of sewing: a part of the first seam, the seams of the others, the rest of the first.
figure-order-inset-alt = { $first }, { $second } and { $third } from the front, drawn apart. Ringed numbers tell the order: first the seam between { $second } and { $third }, up to the point, then from the point outward that of { $first } with { $second }, then that of { $first } with { $third }.
figure-order-caption = The order of sewing

primer-figure = The technique, figure { $number }
primer-printed-side = printed side
primer-plain-side = plain side
primer-allowance = allowance
primer-sides-alt = The same paper from both sides. At the left its printed side with three numbered sections and the dashed cutting line round them; at the right its plain side, through which the mirror image shows faintly.
primer-first-alt = The printed side, with piece 1 beneath the paper: its dashed edge reaches past section 1 all round.
primer-fold-alt = The paper is folded back along line 2, over a card that lies on the line. Of piece 1, which stands out past the fold, all but one allowance is cut off along a dashed line.
primer-lay-alt = The paper is still folded. The new piece lies beneath everything, right side up, with one edge exactly on the trimmed edge of piece 1; most of it lies below the fold.
primer-sew-alt = The paper lies flat again, printed side up. Stitches run along line 2, from the cutting line at the left, where the line ends on the outline, to a few stitches past its end at the right, inside the unit.
primer-look-alt = The new piece is flipped open, and a lamp shines through the paper: the dashed edge of the piece lies outside section 2 and outside the dotted line one allowance round it.
primer-trim-alt = All three pieces are on. A ruler lies along the cutting line at the right, and the strip of paper and fabric beyond it is cut away.
primer-paper-alt = The paper over section 2 is torn off along the stitches and lifted away; the wrong side of its fabric shows. The paper of sections 1 and 3 is still there.

# Layers of the printed document
layer-fabric = Fabrics
layer-seams = Seam lines
layer-cutting = Cutting lines
layer-marks = Numbers and marks
layer-check = Check: one-inch square

# What changed between two editions
change-title = { $same ->
    [yes] What changed within edition { $now }
   *[no] What changed from edition { $was } to edition { $now }
}
change-heading = { $consequence ->
    [print-again] Print again
    [cut-again] Cut again
    [buy] Buy more or less
    [sew-differently] Sew differently
   *[only-words] Only words
}
change-same = { $count ->
    [one] Paper { $names } stays as it is.
   *[other] Papers { $names } stay as they are.
}
change-in-block = { $what } in the block { $block }
change-added = { $name } is new; it is sewn { $count ->
    [one] once
   *[other] { $count } times
}.
change-removed = { $name } is no longer sewn.
change-foundation = { $name }: { $what }
change-redrawn = Drawn anew. { $sections } { $count ->
    [one] lies
   *[other] lie
} elsewhere, { $distance }, most of all { $most }.
change-redrawn-all = Drawn anew. All its sections lie elsewhere, { $distance }, most of all { $most }.
change-redrawn-sections = Drawn anew, with { $now } { $now ->
    [one] section
   *[other] sections
} instead of { $was }; lines moved { $distance }.
change-redrawn-edge = Trimmed elsewhere, { $distance }.
change-by = by up to { $distance }
change-by-less = by less than { $distance }
change-renumbered = The same areas in another order of sewing: { $list }.
change-renumbered-one = { $now } was { $was }
change-recoloured = { $sections } { $count ->
    [one] is
   *[other] are
} { $now } instead of { $was }.
change-renamed = It was called { $was }. { $taken ->
    [yes] Another paper bears that mark now.
   *[no] Papers that are printed can be used.
}
change-relabelled = Its seams are as they were; { $what } are others. { $serves ->
    [yes] Papers that are printed can be used.
   *[no] Papers that are printed would mislead.
}
change-beside = { $beside ->
    [fabrics] the numbers of its fabrics
    [ticks] the ticks where points meet
    [edges] the marks of what its edges meet, or where along them
   *[other] signs within its sections
}
change-counted = { $paper ->
    [yes] Print and sew it { $now ->
        [one] once
       *[other] { $now } times
    } instead of { $was ->
        [one] once
       *[other] { $was } times
    }.
   *[no] Cut and sew it { $now ->
        [one] once
       *[other] { $now } times
    } instead of { $was ->
        [one] once
       *[other] { $was } times
    }.
}
change-strip = strip { $strip } of { $section }
change-section-was = { $now } (it was { $was })
change-piece = { $size } of { $fabric }
change-cut = { $sections }: { $pieces }, { $now }, instead of { $was }.
change-pieces-of = { $pieces }, { $size }
change-pieces = { $count ->
    [one] one piece
   *[other] { $count } pieces
}{ $sections ->
    [one] {""}
   *[other] {" "}each
}
change-cut-already-for = { $already ->
    [short] Pieces that are cut already may come up short: { $sections }.
   *[enough] Pieces that are cut already are large enough: { $sections }.
}
change-cut-count = { $sections }: { $now } pieces instead of { $was }, { $size }.
change-cut-more = { $names }: pieces of the sizes that they had, for { $now ->
    [one] one
   *[other] { $now }
} instead of { $was }.
change-cut-new = { $sections }: { $pieces }, { $now }; that is new.
change-cut-gone = { $sections }: { $was } is no longer cut.
change-cut-all = { $names }: cut all pieces of { $count ->
    [one] this paper
   *[other] these papers
} as the cutting chart says.
change-cut-none = { $names }: no pieces are cut for { $count ->
    [one] this paper
   *[other] these papers
} any more.
change-row-all = all pieces, as the cutting chart says
change-row-already = { $already ->
    [short] may come up short
    [enough] large enough
    [fabric] of the former fabric
   *[unneeded] no longer needed
}
change-row-more = sizes as before, for { $count }
change-row-times = for { $count }
change-row-pieces = { $count } { $count ->
    [one] piece
   *[other] pieces
}
change-buy = { $fabric }: { $now }, instead of { $was }{ $way ->
    [more] {" "}(more)
    [less] {" "}(less)
   *[other] {""}
}.
change-buy-new = { $fabric }: { $now }, of which nothing was bought before.
change-buy-none = { $fabric }: nothing, instead of { $was }.
change-buy-colouring = In the colouring “{ $colouring }”: { $what }
change-joined = { $join }: this join is new.
change-unjoined = { $join }: this join of the former edition is no longer sewn.
change-reordered = { $joins }: { $count ->
    [one] this join is
   *[other] these joins are
} sewn at another time than before.
change-pressed = { $join }: press it another way than before. { $how } Before: { $was }
change-met = { $join }: what meets along it, or how it locks, is another. Read its step in the packet of this edition.
change-placed = { $place } stands { $here } of the block, where { $former } stood.
change-placed-turned = { $place }, { $here } of the block, lies another way than before. Look at the map of the units in this edition.
change-strips-pressed = { $section }: the seams between its strips are pressed another way.
change-step = { $what }: the designer’s own words for this step are others. Read it in the packet of this edition.
change-plans = { $count ->
    [one] The plan of strips is another for { $fabrics }.
   *[other] The plans of strips are others for { $fabrics }.
}
change-said = { $about ->
    [title] The title
    [edition] The edition
    [date] The day of the edition
    [history] The history
    [author] The author
    [licence] The terms of use
    [skill] The skill
    [contact] The contact
    [report] Where to report a fault
    [about] The publisher’s words
    [tools] The tools
    [note] { $several ->
        [yes] The note on { $of }
       *[no] The note
    }
    [logo] The sign
    [photo] The photograph
    [block] The name of a block
    [unit] The name of a unit
    [finished] { $several ->
        [yes] The finished size of { $of }
       *[no] The finished size
    }
    [sizes] The sizes
    [allowance] The seam allowance
    [ease] The ease of rough cuts
    [fabric] The fabric { $of }
    [colouring] { $several ->
        [yes] The colouring { $of }
       *[no] The colouring
    }
    [people] The number of people
    [cutting] { $several ->
        [yes] The plan of strips of { $of }
       *[no] The cloth that is cut from
    }
    [language] The language
    [units] The unit of lengths
    [paper] The paper, and how sheets are filled
    [join] The name of a join
    [proofs] What is proved of the papers and the pressing
   *[unseen] A length that is too small to print
}
change-said-instead = { $what }: “{ $now }” instead of “{ $was }”.
change-said-new = { $what }: “{ $now }” is new.
change-said-gone = { $what }: “{ $was }” is gone.
change-said-other = { $what } is another.
change-already = { $case ->
    [new] { $names }: new. Print and sew { $count ->
        [one] it
       *[other] them
    } as the steps say.
    [gone] { $names }: papers and units of { $count ->
        [one] it
       *[other] these
    } are no longer needed.
    [not] { $names }: units that are sewn already no longer fit the others. Sew { $count ->
        [one] it
       *[other] them
    } anew, by the new paper.
    [meets] { $names }: units that are sewn already still fit, and meet others of the former edition. Beside units by the new { $count ->
        [one] paper
       *[other] papers
    } some points will not meet: do not mix both in a block.
    [fits] { $names }: units that are sewn already fit as they are; only the picture within them is the former one.
    [renumbered] { $names }: units that are sewn already are right. The new numbers are for those that are still to be sewn.
    [recoloured] { $names }: units that are sewn already fit; they show the former fabrics.
    [taken] { $names }: what is printed, cut and sewn by the former paper is right, but for its mark. Write the new one on papers, units and labels, so that they are not taken for others.
    [fabrics] { $names }: units that are sewn already are right. The numbers of fabrics on papers that are printed are those of the former edition: put these papers away.
    [pressed] { $names }: if it is sewn already and still lies free, press it anew. Where a later join holds it, leave it as it is.
    [placed] { $names }: where the block is joined already, take it apart there, and put { $count ->
        [one] this unit
       *[other] these units
    } in.
   *[relabelled] { $names }: papers that are printed already can be used. Write the new words and marks on them if you like.
}
change-picture-alt = The block { $block }, former lines dashed beneath the new ones. { $count ->
    [0] No paper changed.
    [one] The paper { $marks } changed.
   *[other] The papers { $marks } changed.
}
change-pattern = { $case ->
    [same] no change
    [new] this pattern is new
    [gone] this pattern is gone
   *[broken] could not be compared
}
change-none = { $count ->
    [0] There are no patterns to compare.
    [one] No change in one pattern.
   *[other] No change in { $count } patterns.
}
change-none-named = No change: { $names }
change-asked = This asks for edition { $needed } or later, and the source says { $edition }: { $wrong ->
    [yes] papers or cuts that were right are so no longer.
   *[no] there are changes, although none that make papers or cuts wrong.
}

# The correction that goes to those who have the former edition
correction-title = Correction: edition { $edition }
correction-stamp = correction to edition { $edition }
correction-intro = This is for everybody who printed { $title }, { $size }, in edition { $was }. Edition { $now } differs from it in what is told here, and in nothing else. On every paper stands the edition in which it last changed: papers on which the edition is the same as on yours need not be printed again.
correction-nothing = No paper is to be printed anew: those that you have printed are right.
correction-picture = The block { $block }
correction-picture-key = Shaded areas changed. Thin dashes show where lines were; rings show corners that moved, with a line from where they were.
correction-already = What is already printed, cut or sewn
correction-sections = For
correction-now = Cut now
correction-before = Before
correction-cut-already = If it is cut already
correction-how = How to print
correction-print = { $count ->
    [one] One sheet follows. It holds only what is to be printed anew, and says how often to print it.
   *[other] { $count } sheets follow. They hold only what is to be printed anew, and say how often to print each.
} Print at 100{"\u00A0"}%, and measure the square and the bar before you sew. { $some ->
    [yes] Put away the former { $names }, so that they are not mixed up with the new.
   *[no] {""}
}
correction-elsewhere = The papers to print anew stand at true size in the PDF of this correction.
correction-sheets = Papers that changed
