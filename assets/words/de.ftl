# Alle Wörter einer gedruckten Anleitung, auf Deutsch.
#
# Dieselben Meldungen mit denselben Variablen wie in en.ftl. Wer liest, wird mit »du« angesprochen.
# Namen von Einheiten, Stoffen und Plätzen sind Variablen: Vor ihnen steht kein Artikel, und kein Satz verlangt, dass sie sich beugen.
#
# Ein Wort für jede Sache:
#
# | Englisch | Deutsch |
# | --- | --- |
# | packet, pattern | Anleitung |
# | paper piecing | Nähen auf Papier |
# | foundation, paper | Vorlage, Papiervorlage (wo vom Papier als Ganzem die Rede ist: Papier) |
# | sheet | Blatt |
# | part of a foundation | Teilstück |
# | block | Block |
# | unit | Einheit |
# | section | Abschnitt |
# | piece | Teil |
# | rough cut, cut | Zuschnitt |
# | strip | Streifen |
# | seam, seam line | Naht, Nahtlinie |
# | join | Verbindungsnaht; was sie zusammenfügt, heißt Gruppe |
# | seam allowance | Nahtzugabe |
# | cutting line | Schnittlinie |
# | match point, tip | Passpunkt, Spitze |
# | printed side, plain side | bedruckte Seite, unbedruckte Seite |
# | front | Vorderseite |
# | right side, wrong side (of fabric) | rechte Stoffseite, linke Stoffseite |
# | right sides together | rechts auf rechts |
# | trim the fabric past the fold | zurückschneiden |
# | trim the unit | beschneiden |
# | fold, flip open | falten, aufklappen |
# | print (of fabric) | Muster |
# | grain, bias | Fadenlauf, schräg zum Fadenlauf |
# | selvedge | Webkante |
# | ease | Spielraum |
# | heavy line | fette Linie |
# | lock (of allowances) | einrasten |
# | filled dot, open dot | voller Punkt, offener Punkt |
# | rotary cutter | Rollschneider |
# | edition | Ausgabe |
# | tester’s edition | Ausgabe zum Probenähen |

## Lists and measures

list-two = { $first } und { $second }
list-more = { $first }, { $rest }
list-last = { $first } und { $last }
row-two = { $first } und { $second }
row-more = { $first }; { $rest }
row-last = { $first } und { $last }

measure-decimal = ,
measure-inches = { $number }{"\u00A0"}Zoll
measure-centimetres = { $number }{"\u00A0"}cm
measure-millimetres = { $number }{"\u00A0"}mm
measure-yards = { $number }{"\u00A0"}Yard
measure-by = { $width }{"\u00A0"}×{"\u00A0"}{ $height }
measure-less = weniger als { $least }
measure-degrees = { $number }°

## The head of a packet

packet-edition = Ausgabe { $edition }
packet-dated = Ausgabe { $edition }, { $date }

facts-title = Auf einen Blick
facts-finished = Fertige Größe
facts-block = { $name }
facts-block-copies = { $size }, { $copies ->
    [one] einmal
   *[other] { $copies }-mal
} genäht
facts-allowance = Nahtzugabe
facts-fabrics = Stoffe
facts-foundations = Vorlagen
facts-foundations-value = { $foundations } zu nähen, auf { $sheets ->
    [one] einem Blatt
   *[other] { $sheets } Blättern
}
facts-sections = Teile
facts-seams = Nähte
facts-seams-value = { $seams }, davon { $joins ->
    [0] keine
    [one] eine
   *[other] { $joins }
} zwischen Einheiten
facts-match-points = Passpunkte
facts-skill = Vorkenntnisse
facts-level = Stufe
facts-level-value = { $number } von 5, { $name }
level-name = { $number ->
    [1] für das erste Mal
    [2] leicht
    [3] für ruhige Hände
    [4] anspruchsvoll
   *[other] für Geduldige
}
level-how = Wie die Stufe gezählt wird, an je einem Block: { $pieces ->
    [one] ein Punkt für das eine Teil
   *[other] ein Punkt für jedes der { $pieces } Teile
}, zwei für jede Verbindungsnaht ({ $joins }) und jede Spitze ({ $tips }), drei für jeden Passpunkt ({ $match_points }), zwei weitere für jedes Teil, das auf fünf Grad genau liegen muss ({ $exact }): zusammen { $points }. Bis 15 Punkte sind Stufe 1, bis 40 Stufe 2, bis 80 Stufe 3, bis 150 Stufe 4.
facts-count = { $count }
facts-terms = Nutzungsbedingungen

nav-title = In dieser Anleitung
running = Ausgabe { $edition }  ·  { $size }
page-of = { $page } von { $pages }

front-title = Der Block
front-caption = { $block }, von vorn gesehen
map-caption = Wo welche Einheit liegt, von vorn gesehen
map-plain = ohne Papier

foundations-title = Vorlagen
foundations-reduced = Nicht in Originalgröße: Drucke die Vorlagen aus der PDF-Datei mit 100 %.
foundations-why-mirrored = Die Zeichnung ist das Spiegelbild der Vorderseite: Du nähst auf der bedruckten Seite, und der Stoff liegt auf der anderen.
foundation-caption = { $name }: { $count }-mal nähen

## Before you begin

begin-title = Bevor du anfängst
glossary-title = Wörter in dieser Anleitung
glossary-word = Wort
glossary-meaning = Was es heißt
glossary-allowance = Nahtzugabe
glossary-allowance-is = { $allowance } Stoff jenseits jeder Nahtlinie
glossary-section = Abschnitt
glossary-section-is = ein nummeriertes Feld einer Einheit; die Nummer sagt, an welcher Stelle es genäht wird
glossary-piece = Teil, Zuschnitt
glossary-piece-is = der Stoff für einen Abschnitt, und die größere Form, in die er zuerst geschnitten wird
glossary-ease = Spielraum
glossary-ease-is = was ein Zuschnitt über die Nahtzugabe hinaus übrig hat
glossary-unit = Einheit
glossary-unit-is = ein Stück des Blocks, das auf einem Papier genäht wird, mit einem Buchstaben als Kennzeichen
glossary-join = Verbindungsnaht
glossary-join-is = eine Naht zwischen zwei Einheiten oder Gruppen von Einheiten
glossary-partial = Teilnaht
glossary-partial-is = die erste Naht eines Ringes um eine Mitte: zuerst nur zum Teil genäht und beendet, wenn der Ring geschlossen ist
glossary-inset = Eingesetzte Ecke
glossary-inset-is = drei Teile, die sich in einem Punkt treffen; eines davon wird in die Ecke der beiden anderen eingesetzt
glossary-foundation = Vorlage oder Papier
glossary-foundation-is = das bedruckte Papier einer Einheit
glossary-seam-line = Nahtlinie
glossary-seam-line-is = die Linie, auf der ein Teil angenäht wird; ihre dünne Fortsetzung zeigt nur, wo bis zur Schnittlinie weitergenäht wird. Rings um die Einheit ist es die fette, ihr Rand, auf der sie an andere genäht wird
glossary-cutting-line = Schnittlinie
glossary-cutting-line-is = die gestrichelte Linie um die Einheit, eine Nahtzugabe außerhalb der fetten
glossary-match-point = Passpunkt
glossary-match-point-is = ein Punkt einer Verbindungsnaht, an dem sich Nähte beider Seiten treffen; auf dem Papier ein voller Punkt
glossary-tip = Spitze
glossary-tip-is = ein Punkt einer Verbindungsnaht, an dem eine Form der einen Seite endet; auf dem Papier ein offener Punkt
glossary-right-side = Rechte Stoffseite
glossary-right-side-is = die Seite des Stoffes, die am fertigen Block zu sehen ist; die andere ist die linke
glossary-selvedge = Webkante
glossary-selvedge-is = die feste Kante an beiden Seiten des Stoffes, wie er verkauft wird
glossary-bias = Schräg zum Fadenlauf
glossary-bias-is = schräg zu den Fäden des Gewebes, wo Stoff sich dehnt
glossary-print = Muster mit Richtung, mit zwei Richtungen
glossary-print-is = ein Muster, das ein Oben hat, oder eines, das eine Richtung hat, aber kein Oben, etwa Streifen
glossary-nest = Einrasten
glossary-nest-is = Nahtzugaben, die in entgegengesetzte Richtungen zeigen, legen sich aneinander und halten den Punkt
glossary-plain = Maßteil
glossary-plain-is = ein Teil, das genau auf Maß geschnitten und ohne Papier angenäht wird
glossary-pieced = Zusammengesetzter Abschnitt
glossary-pieced-is = ein Abschnitt aus mehreren Streifen, die zuerst aneinandergenäht und dann wie ein Teil angenäht werden; eine dünne gestrichelte Linie auf der Vorlage zeigt jede Naht dazwischen
tools-title = Werkzeug und Zubehör
tool-machine = Eine Nähmaschine mit Geradstich, der sich auf etwa 1,5 mm einstellen lässt
tool-needle = Eine neue Nadel, Stärke 80 bis 90, und ein feines Garn in neutraler Farbe
tool-paper = { $sheets ->
    [one] Ein Blatt
   *[other] { $sheets } Blatt
} dünnes Druckerpapier und eines mehr zum Probieren, und ein Drucker, der mit 100 % druckt
tool-roll = { $length } einer Rolle dünnes Papier, { $width } breit, und etwas mehr zum Probieren; dazu ein Drucker, der darauf mit 100 % druckt
tool-cutter = Rollschneider und Schneidematte oder eine Stoffschere; für Papier eine alte Klinge oder eine andere Schere
tool-ruler = Ein Lineal mit feiner Teilung, Sechzehntelzoll oder Millimeter, so lang wie der Messbalken auf den Blättern
tool-card = Eine Postkarte oder ein dünnes Lineal, um das Papier darüber zu falten
tool-glue = Flache Stecknadeln und auswaschbarer Kleber
tool-iron = Ein Bügeleisen, ohne Dampf benutzt, und eine feste Unterlage zum Bügeln
tool-light = Eine Lampe oder ein Fenster, um durch das Papier zu sehen
tool-ripper = Ein Nahttrenner für die eine Naht, die danebenging

## Fabric and cutting

fabrics-title = Stoffe
fabrics-intro = Die Zahl im Kreis steht auf den Vorlagen und in dieser Anleitung für den Stoff; in Bildern hat jeder Stoff eine eigene Schraffur, damit er auch in Grau gedruckt zu erkennen ist. In der gedruckten Anleitung ist das Feld daneben für ein Stückchen deines Stoffes.
chart-pieces = Teile

chart-title = Stoff und Zuschnitt
chart-intro = Schneide zuerst die Streifen, gerade quer über die Stoffbreite, dann die Teile aus den Streifen; ist ein Teil schmaler als sein Streifen, schneide es auf sein Maß. Stecke gleich beim Zuschneiden seinen Zettel daran. Die Maße sind grob: Sie enthalten die Nahtzugabe und etwas Spielraum; beschnitten wird erst die genähte Einheit.
chart-intro-print = Hat das Muster eines Stoffes eine Richtung, ist es anders: Die erste Zahl läuft quer zum Muster und die zweite daran hinauf. Schneide diese Teile mit aufrechtem Muster zu; jeder Schritt sagt, welche Kante an die Linie kommt.
chart-intro-plain = Wo „Maßteil“ steht, schneide genau auf die angegebene Größe: Diese Teile haben kein Papier, und nichts daran wird später beschnitten. Die erste Zahl ist ihre längere Seite, wenn ihr Muster keine Richtung hat.
chart-intro-strip = Wo „Streifen“ steht, schneide die Breite des Streifens genau: Er wird an beiden Seiten an andere genäht. Nur seine Enden haben Spielraum.
chart-fabric = Stoff
chart-buy = Kaufen
chart-uses = Streifen brauchen
chart-uses-value = { $length } Stofflänge
chart-uses-of = die Streifen brauchen { $uses }
chart-buy-fat-eighth = { $length } oder ein Fat Eighth
chart-buy-fat-quarter = { $length } oder ein Fat Quarter
chart-shopping-caption = Was zu kaufen ist
chart-pieces-caption = { $fabric }: Teile, die zu schneiden sind
chart-strips-caption = { $fabric }: Streifen, quer über die Stoffbreite
chart-size = Zuschnitt
chart-count = Wie oft
chart-for = Für die Abschnitte
chart-for-plain = { $label } (Maßteil)
chart-for-strip = { $label } (Streifen, genau so breit)
chart-strip = Streifen
chart-strip-one = { $number }
chart-strip-range = { $first }–{ $last }
chart-strip-width = Breite
chart-strip-pieces = Aus jedem Streifen, der Reihe nach
chart-strip-run = { $count }-mal{"\u00A0"}{ $size }
chart-strip-run-turned = { $count }-mal{"\u00A0"}{ $size }, gedreht
chart-pieces-total = { $count ->
    [one] { $count } Teil
   *[other] { $count } Teile
}
chart-one-way = Muster mit Richtung, sein Oben längs der Webkante: aufrecht halten
chart-two-way = Muster mit zwei Richtungen: aufrecht oder auf dem Kopf
chart-one-way-across = Muster mit Richtung: sein Oben läuft von Webkante zu Webkante
chart-two-way-across = Muster mit zwei Richtungen: es läuft von Webkante zu Webkante
shape-half = Hälfte eines Quadrats von { $side }
shape-quarter = Viertel eines Quadrats von { $side }
shape-trapezoid = { $size }, davon { $trims }
shape-trim = { $corner ->
    [upper-left] oben links
    [upper-right] oben rechts
    [lower-left] unten links
   *[lower-right] unten rechts
} { $length } weg
chart-fat-quarters = { $count ->
    [one] ein Fat Quarter
   *[other] { $count } Fat Quarters
}
chart-fat-eighths = { $count ->
    [one] ein Fat Eighth
   *[other] { $count } Fat Eighths
}
chart-buy-nothing = nichts: dein eigener Stoff reicht
chart-buy-besides = { $amount } zu deinem eigenen Stoff dazu
chart-buy-motifs = so viel, wie die Motive brauchen
chart-buy-width = bei { $width } Breite { $amount }
chart-from-bolt = aus { $width } breitem Stoff
chart-from-fat-quarters = aus Fat Quarters, von jedem { $size } nutzbar
chart-from-fat-eighths = aus Fat Eighths, von jedem { $size } nutzbar
chart-bound-reached = keine Einteilung in Streifen braucht weniger
chart-bound = keine Einteilung in Streifen braucht weniger als { $length }
chart-bound-sheets = keine Einteilung braucht weniger davon als { $count }
chart-in-place = Anstelle von
chart-colouring-caption = Was zu kaufen ist für „{ $title }“
chart-price = diese Einteilung braucht { $length } mehr Stoff als die kürzeste bekannte und hat dafür weniger verschiedene Streifenbreiten
chart-how-bolt = Die Mengen sind für die nutzbare Breite ohne Webkanten gerechnet. Sie enthalten { $squaring } zum Begradigen und { $percent } % für das Einlaufen, aufgerundet auf das, was Läden abschneiden.
chart-how-fat = Von einem Fat Quarter sind { $quarter } gerechnet, von einem Fat Eighth { $eighth }: Die Streifen daraus sind kürzer, also schneide für dieselben Teile mehr davon.
chart-how-fats = Fat Quarters und Fat Eighths sind mit { $percent } % für das Einlaufen gerechnet.
chart-total = Zusammen { $pieces } aus { $fabrics ->
    [one] einem Stoff
   *[other] { $fabrics } Stoffen
}.
chart-total-motifs = { $count ->
    [one] Eines davon wird um ein Motiv geschnitten: Es kommt aus keinem Streifen und ist in der Menge zum Kaufen nicht enthalten. Wie viel Stoff es braucht
   *[other] { $count } davon werden um Motive geschnitten: Sie kommen aus keinem Streifen und sind in den Mengen zum Kaufen nicht enthalten. Wie viel Stoff sie brauchen
}, hängt davon ab, wie weit die Motive des Musters auseinanderliegen.
chart-people = Alle Zahlen und Mengen gelten für { $people } Personen zusammen. Eine Tabelle am Ende sagt, was in jede Tüte kommt.
chart-intro-size = Bei jedem Maß ist die erste Zahl die Seite, die an der Naht liegen wird, die zweite die Seite von der Naht weg.
chart-intro-drawing = Das Bild zeigt den Stoff im Maßstab: links die Nummer jedes Streifens, rechts seine Breite, grau die Webkanten. Gleiche Streifen sind einmal gezeichnet. Die erste Zahl eines Maßes liegt am Streifen entlang, oder die zweite, wo „gedreht“ steht.
chart-intro-letters = Kleine Buchstaben in einem Bild stehen für die Teile der Tabelle darunter.
chart-intro-squares = Für Hälften und Viertel von Quadraten schneide zuerst das ganze Quadrat, dann von Ecke zu Ecke: einmal für Hälften, zweimal für Viertel.
chart-intro-slants = Wo an Ecken etwas wegkommt, ist es für das Teil gesagt, wie es mit der rechten Stoffseite nach oben und der Kante für seine Naht unten liegt: Miss an der oberen oder unteren Kante entlang und schneide von dort zum anderen Ende dieser Seite. Zwei solche Teile liegen verkehrt herum nebeneinander und haben einen schrägen Schnitt gemeinsam.
chart-intro-hand = Eine Form, die anders ist als ihr Spiegelbild, wird aus einer einzigen Lage geschnitten, die rechte Stoffseite oben.
chart-intro-motif = Ein Teil mit Motiv wird gezielt zugeschnitten: jedes Motiv nach seinem eigenen Fenster. Drucke die Fenster mit 100 %, lege eines auf die rechte Stoffseite, das Motiv aufrecht darin, und schneide an der äußeren Linie. Die Fenster sind Dateien dieser Anleitung; ihre Namen stehen am Ende jedes Stoffes.
chart-count-how = { $count }: { $how }
chart-windows = Fenster für diese Motive: { $windows }.
chart-how-motif = { $count ->
    [one] ein Motiv, gezielt zugeschnitten nach seinem Fenster
   *[other] { $count } Motive, gezielt zugeschnitten nach ihrem Fenster
}
chart-how-half = { $count ->
    [one] ein Quadrat, einmal von Ecke zu Ecke geschnitten: 2 Hälften
   *[other] { $count } Quadrate, einmal von Ecke zu Ecke geschnitten: je 2 Hälften
}
chart-how-quarter = { $count ->
    [one] ein Quadrat, zweimal von Ecke zu Ecke geschnitten: 4 Viertel
   *[other] { $count } Quadrate, zweimal von Ecke zu Ecke geschnitten: je 4 Viertel
}
chart-how-pairs = { $count ->
    [one] ein Paar, verkehrt herum nebeneinander, aus { $size }
   *[other] { $count } Paare, verkehrt herum nebeneinander, je aus { $size }
}
chart-how-single = { $count ->
    [one] eines aus { $size }
   *[other] { $count }, je aus { $size }
}
chart-left-over = { $count } übrig
chart-one-layer = einzelne Lage, rechte Stoffseite oben
chart-lettered = { $letter } ({ $size })
chart-letter = Im Bild
chart-drawing-width = { $count ->
    [1] { $width }
   *[other] { $width } × { $count }
}
chart-drawing-scale = { $length } Stoff
chart-own-length = { $length } vom Ballen
chart-own-scrap = Rest, { $size }
chart-own-strip = { $width } breit: { $content }.
chart-own-unused = nichts
chart-own-enough = Dein eigener Stoff reicht: Es ist nichts zu kaufen.
chart-own-short = Dein eigener Stoff reicht nicht: Kaufe { $amount } dazu.
chart-own = Dein eigener Stoff
chart-own-gives = Streifen und Teile daraus
chart-own-caption = { $fabric }: was aus deinem eigenen Stoff geschnitten wird
chart-kits = In jeder der { $people } Tüten
chart-in-kit = In jeder Tüte
labels-title = Zettel für die Teile
labels-intro = Schneide diese Zettel auseinander und stecke beim Zuschneiden einen an jeden Stapel Teile.
labels-intro-kits = Diese Zettel gelten für eine Tüte: Drucke sie für jede der { $people } Personen einmal und lege die Teile mit ihren Zetteln in die Tüten.
labels-count = { $count ->
    [one] ein Teil
   *[other] { $count } Teile
}
labels-count-kit = { $count ->
    [one] ein Teil in jeder Tüte
   *[other] { $count } Teile in jeder Tüte
}
figure-cloth-title = { $sheets ->
    [1] { $fabric }: die Streifen auf dem Stoff
   *[other] { $fabric }: die Streifen, auf { $sheets } solchen Stoffen
}
figure-cloth-alt = Der Stoff { $fabric } im Maßstab, { $across } breit, mit { $count ->
    [one] einem Streifen
   *[other] { $count } Streifen
} quer darüber und den Teilen in den Streifen{ $sheets ->
    [1] .
   *[other] ; { $sheets } Stoffe werden so geschnitten.
} Die Tabellen sagen dasselbe in Worten.
window-title = Fenster für { $section }
window-head = { $title }, { $block }, Abschnitt { $section }: { $fabric }
window-how = Mit 100 % drucken und die Quadrate mit einem Lineal prüfen. Die äußere Linie und das Fenster darin ausschneiden. Auf die rechte Stoffseite legen, das Gedruckte oben, das Motiv aufrecht mit seiner Mitte am Kreuz.
window-alt = Ein Fenster in genauer Größe für das Teil von Abschnitt { $section }, { $fabric }, von vorn: Die graue Fläche ist der fertige Abschnitt, an der gestrichelten Linie darum wird das Teil geschnitten, ein Kreuz zeigt die Mitte des Motivs und ein Pfeil sein Oben.
window-inch = 1 Zoll
window-centimetres = 2 cm

## The technique on one page

primer-title = Nähen auf Papier, kurz erklärt
primer-order = Der Stoff wird auf das Papier genäht, Teil für Teil in der Reihenfolge der Nummern, jedes mit einer geraden Naht auf einer gedruckten Linie. Die Linie eines Abschnitts ist die zwischen ihm und den Abschnitten mit kleineren Nummern. Diese acht Handgriffe kehren immer wieder. Die Wörter sind auf den letzten Seiten erklärt.
primer-sides-title = Zwei Seiten
primer-sides = Du nähst auf der bedruckten Seite; der Stoff liegt auf der unbedruckten. Darum ist der Druck das Spiegelbild des Blocks: Er sieht verkehrt aus und ist richtig.
primer-first-title = Teil 1
primer-first = Es wird an nichts angenäht. Es liegt auf der unbedruckten Seite, die linke Stoffseite zum Papier, und reicht ringsum mehr als { $allowance } über Abschnitt 1 hinaus. Ein Tupfer auswaschbarer Kleber oder eine flache Stecknadel hält es.
primer-fold-title = Falten und zurückschneiden
primer-fold = Falte das Papier in ganzer Breite, sodass der Falz auf der nächsten Linie liegt; die Kante einer Karte hilft dabei. Wo frühere Stiche den Falz kreuzen, reiße zuerst das Papier einen Fingerbreit von ihnen los; trenne sie nicht auf. Schneide den Stoff, der über den Falz hinaussteht, auf { $allowance } zurück: So hat das nächste Teil eine Kante, an der es liegt.
primer-lay-title = Das nächste Teil anlegen
primer-lay = Drehe den Stoff zu dir. Das nächste Teil kommt mit der rechten Stoffseite nach unten auf das, was da ist, seine Kante auf die geschnittene Kante; das Übrige zeigt zurück über das Genähte, von seinem Abschnitt weg. Stecke es dort fest, nicht zu nah an der Linie, und sieh nach, wie weit es über beide Enden der Linie hinausragt.
primer-sew-title = Auf der Linie nähen
primer-sew = Falte das Papier auf und nähe, die bedruckte Seite oben. Endet die Linie am Rand der Einheit, nähe bis zur Schnittlinie weiter; endet sie im Innern, höre zwei oder drei Stiche hinter ihr auf.
primer-look-title = Aufklappen, prüfen, bügeln
primer-look = Klappe das Teil auf und halte die Einheit gegen das Licht: Es muss auf allen Seiten { $allowance } über seinen Abschnitt hinausragen oder bis zur Schnittlinie reichen. Dann bügle ohne Dampf von der Stoffseite.
primer-trim-title = Beschneiden
primer-trim = Ist das letzte Teil angenäht, beschneide Papier und Stoff zusammen auf der Schnittlinie, der äußeren. Schneide nie auf einer Nahtlinie.
primer-paper-title = Das Papier herausnehmen
primer-paper = Erst wenn die Nachbarn der Einheit angenäht sind: Bis dahin bewahrt das Papier schräge Kanten davor, sich zu dehnen. Knicke es an den Stichen und reiße es ab, den Daumennagel auf der Naht.
primer-machine = Ein kurzer Stich, etwa 1,5 mm, perforiert das Papier, sodass es sich gut abreißen lässt. Ging eine Naht daneben, trenne sie gleich auf: Nach einer Naht lässt sich ein Teil noch austauschen, in einer fertigen Einheit nicht mehr.

## Printing

print-title = Drucken und prüfen
print-scale = Drucke mit 100 %: „Tatsächliche Größe“, nicht „An Seite anpassen“. Im PDF-Programm heißen die Seiten mit den Vorlagen Blatt{"\u00A0"}1, Blatt{"\u00A0"}2 und so weiter; fragt das Druckfenster nach Seitenzahlen, so sagt das Inhaltsverzeichnis auf der ersten Seite, wo sie beginnen.
print-once = Drucke Blatt 1 einmal und sonst noch nichts.
print-check = Lege ein Lineal an den Messbalken am Fuß. Weicht er um mehr als eine Strichbreite ab, suche in der Tabelle unten, was du gemessen hast, drucke stattdessen mit so viel Prozent und miss noch einmal; zwischen zwei Zeilen nimm, was dazwischenliegt. Das Quadrat von einem Zoll zeigt nur grobe Fehler.
print-rest = Ist Blatt 1 richtig geworden, behalte es: Es zählt mit. Drucke alle Blätter so oft, wie die Liste sagt, und schneide die Vorlagen grob auseinander, einen Fingerbreit außerhalb der Schnittlinien.
print-paper = Die Blätter mit den Vorlagen werden auf { $paper } gedruckt; alle anderen Seiten sind { $pages }.
print-paper-name = { $name } ({ $size })
print-paper-roll = eine Rolle von { $width } Breite
print-last-changed = Auf jeder Vorlage steht die Ausgabe, in der sie zuletzt geändert wurde; sie kann kleiner sein als { $edition }. Eine Vorlage, die du früher gedruckt hast, gilt nur, wo ihre Ausgabe dieselbe ist wie auf der Vorlage hier.
print-spares = So gedruckt, hast du mehr, als du nähst, von { $spares }: Sie teilen sich ein Blatt mit anderen. Behalte sie als Ersatz, falls eine Naht misslingt.
print-fewest = Auf weniger Blätter passen die Vorlagen nicht.
print-sheets-caption = Wie oft jedes Blatt zu drucken ist
print-sheet = Blatt
print-times = Drucken
print-times-value = { $times ->
    [1] einmal
    [2] zweimal
   *[other] { $times }-mal
}
print-holds = Was darauf ist
print-part = { $mark }, Teilstück { $number } von { $parts }
print-corrections-caption = Wenn der Messbalken abweicht
print-bar-inches = Der Balken von { $length } Zoll misst
print-bar-centimetres = Der Balken von { $length } cm misst
print-at = Drucke mit
print-percent = { $number } %
print-why = Warum das wichtig ist: Mit 98 % gedruckt, wird ein Block von { $width } Breite um { $off } zu klein, und nichts, was auf Maß geschnitten ist, passt daran.
sheet-name = Blatt { $number }
sheet-in-text = Blatt{"\u00A0"}{ $number }
sheet-bookmark = { $sheet }: { $marks }

## Units

units-title = Einheiten
units-intro = Eine Einheit wird auf einem Stück Papier genäht. Ihr Kennzeichen und die Nummern ihrer Abschnitte sind auf den Vorlagen, in der Zuschnittliste und in den Schritten dieselben. Braucht eine Einheit mehrere Vorlagen, auch als Spiegelbild oder in anderen Stoffen, so haben diese dazu einen kleinen Buchstaben: Aa, Ab.
units-caption = Die Einheiten von { $block }
units-unit = Einheit
units-sew = Nähen
units-pieces = Teile
units-trimmed = Beschnitten misst sie (Kanten von der längsten an, im Uhrzeigersinn von vorn gesehen)
units-trimmed-each = je { $length }
units-plain = Ein Kennzeichen ohne Nummern ist ein Maßteil: Es wird genau auf Maß geschnitten und hat kein Papier.
units-cut = { $size }, genau auf Maß
units-no-paper = kein Papier

## Steps: a block and its foundations

steps-title = Nähen, Schritt für Schritt
steps-convention = „Links“ und „rechts“ einer Linie sind immer so gemeint: Die bedruckte Seite liegt vor dir, und das Papier ist so gedreht, dass der neue Abschnitt über der Linie liegt, von dir weg. So gedreht sind auch die Bilder.
steps-title-of = Nähen: { $block }
see-sheet = Die Vorlage { $marks } ist auf { $sheet }
steps-block = { $block }
steps-block-copies = { $block }: { $copies ->
    [one] einen Block
   *[other] { $copies } Blöcke
} nähen
steps-foundation = { $mark } · { $unit }
steps-one = Diese Vorlage brauchst du einmal.
steps-batch = Diese Vorlage brauchst du { $count }-mal. Arbeite an allen nebeneinander: Mach jeden Schritt an { $count ->
    [2] beiden
   *[other] allen { $count }
}, bevor der nächste kommt. Das geht schneller, und ein Fehler zeigt sich, bevor er { $count ->
    [2] zweimal
   *[other] { $count }-mal
} gemacht ist.
steps-batch-alike = Diese Vorlage brauchst du { $count }-mal: Mach jeden Schritt an { $count ->
    [2] beiden
   *[other] allen { $count }
}, bevor der nächste kommt.
steps-batch-several = Arbeite an diesen Vorlagen nebeneinander: { $foundations }. Mach jeden Schritt an { $count ->
    [2] beiden
   *[other] allen { $count }
}, bevor der nächste kommt. Zusammengenäht werden sie später.
steps-of = { $count }-mal { $mark }
steps-hands = { $mirrored } { $count ->
    [one] ist
   *[other] sind
} das Spiegelbild von { $first }: Dort sind links und rechts vertauscht, und die Schritte sagen beides. Halte die beiden Stapel auseinander.
steps-colours = Ihre Stoffe sind verschieden: Jeder Schritt sagt, welcher wohin kommt.
steps-stands = Steht in einem Schritt { $section }, so sind { $sections } gemeint.
steps-parts = { $mark } ist in { $parts } Teilstücken gedruckt; der kleine Plan auf jedem zeigt grau, wohin es gehört. Mach daraus zuerst ein Papier, in der Reihenfolge ihrer Nummern: Schneide jedes Teilstück ab, wo es darauf steht, lege es auf das benachbarte, die bedruckten Seiten oben, jedes Kreuz auf das mit demselben Buchstaben, und klebe es mit Kleber an; Klebeband würde unter dem Bügeleisen schmelzen.
steps-key = In den Bildern der bedruckten Seite siehst du durch das Papier: Grau ist, was genäht ist; rot, mit kräftig gestricheltem Rand, ist das neue Teil, wie es darunterliegt; die fette Linie ist die Naht, und die Linie aus Strichen und Punkten ist der Falz.
steps-mirrored = Das ist das Spiegelbild von { $others }: dieselben Nummern, aber seitenverkehrt. Halte die beiden Stapel auseinander.
steps-recoloured = Das ist dieselbe Zeichnung wie { $others } in anderen Stoffen.
steps-places = Plätze im Block: { $places }.
steps-bias = { $count ->
    [one] Die Außenkante von { $sections } liegt schräg zum Fadenlauf und dehnt sich
   *[other] Die Außenkanten von { $sections } liegen schräg zum Fadenlauf und dehnen sich
}: Setze dort das Bügeleisen auf und hebe es wieder, ohne zu schieben, und lass das Papier darin.
steps-bias-all = Alle Außenkanten liegen schräg zum Fadenlauf und dehnen sich: Setze dort das Bügeleisen auf und hebe es wieder, ohne zu schieben, und lass das Papier darin.

## Steps: a section

section-heading = { $section } · { $fabric }
section-fabric = { $fabric } ({ $marks })
fact-of = { $fact }, { $marks }
fact-cut = Zuschnitt
fact-cut-turned = { $size }, wo die Einheit um { $turn } gedreht ist
fact-cut-exact = { $size }, genau
fact-cut-motif = { $size }, gezielt nach seinem Fenster
fact-line = Linie
fact-line-value = { $length } lang
fact-past = Über ihre Enden
fact-past-value = { $left } links, { $right } rechts
fact-past-both = { $length } an jedem Ende

first-teach = Nimm die Vorlage und drehe die bedruckte Seite von dir weg. Lege das Teil auf die unbedruckte Seite, die linke Stoffseite zum Papier, die rechte zu dir, sodass es Abschnitt { $section } bedeckt und ringsum mehr als { $allowance } darüber hinausragt.
first-teach-light = Halte alles gegen ein Fenster oder eine Lampe, um die Linien durch das Papier zu sehen, und schiebe das Teil zurecht. Dann befestige es mit einer flachen Stecknadel oder einem Tupfer auswaschbarem Kleber, mitten im Abschnitt und nicht zu nah an den Linien.
first-short = Auf die unbedruckte Seite des Papiers, die linke Stoffseite nach unten, über Abschnitt { $section }, sodass es ringsum mehr als { $allowance } darüber hinausragt. Prüfe es gegen das Licht und befestige es.
first-long = Das Bild zeigt, in welche Richtung seine Seiten von { $length } laufen.
first-shown = Das Bild zeigt, wie es liegt.
first-print = Drehe es so, dass sein Muster in die richtige Richtung zeigt: siehe den Pfeil auf der Vorlage.
first-only = Diese Einheit ist ein einziges Teil.
plain-count = { $count ->
    [one] Dieses Maßteil brauchst du einmal
   *[other] Dieses Maßteil brauchst du { $count }-mal
}. Es hat kein Papier, und bis zum Zusammennähen wird nichts daran genäht.
plain-cut = Genau auf diese Größe, in der ringsum die Nahtzugabe von { $allowance } enthalten ist: Es wird später nicht beschnitten, und was hier nicht stimmt, stimmt im Block nicht.
plain-print = Das Muster steht im Block aufrecht: Die erste Zahl der Größe läuft quer dazu, die zweite in seiner Richtung.
plain-several = Wohin das Muster zeigt, hängt davon ab, wo das Teil stehen wird: Schneide jede Größe für ihren Platz.
plain-look = Stecke einen Zettel mit seinem Kennzeichen daran: { $mark }. Seine Nähte werden { $allowance } innerhalb der Kanten laufen, wo das Bild gestrichelt ist.
pieced-sew = Nähe zuerst, ohne Papier, { $strips } { $count ->
    [2] zu einem Teil
   *[other] in dieser Reihenfolge zu einem Teil
} zusammen: rechts auf rechts, die Kanten von { $length } an beiden Enden bündig, { $allowance } von der Kante, mit einem Stich von etwa 2{"\u00A0"}mm. Danach stelle die Maschine wieder auf den kurzen Stich.
pieced-press = Bügle die Nahtzugaben zu { $fabric }.
pieced-press-at = Bügle die Nahtzugaben zwischen { $first } und { $second } zu { $fabric }.
pieced-print = Achte auf die Muster: Im Bild liegt das Teil so, wie es zu sehen sein wird.
pieced-first = Auf die unbedruckte Seite des Papiers, die linke Stoffseite nach unten, über Abschnitt { $section }. Halte es gegen das Licht und bringe { $count ->
    [one] seine Naht genau auf die dünne gestrichelte Linie
   *[other] seine Nähte genau auf die dünnen gestrichelten Linien
} von { $section }; es ragt ringsum mehr als { $allowance } über den Abschnitt hinaus. Befestige es mit einer flachen Stecknadel oder einem Tupfer auswaschbarem Kleber, nicht zu nah an den Linien.
pieced-lay = Das Bild zeigt das Teil aufgeklappt. Falte das Papier auf und drehe den Stoff zu dir. Halte das Teil so vor Abschnitt { $section }, wie es fertig aussehen wird, die rechte Stoffseite zu dir: Gegen das Licht { $count ->
    [one] liegt seine Naht genau auf der dünnen gestrichelten Linie
   *[other] liegen seine Nähte genau auf den dünnen gestrichelten Linien
} von { $section }, und es ragt ringsum mehr als { $allowance } über den Abschnitt hinaus, auch über die Linie. Stecke es entlang der Linie fest, dann klappe es an diesen Nadeln um, sodass es mit der rechten Stoffseite nach unten auf dem liegt, was da ist, und drehe die bedruckte Seite nach oben.
pieced-tick = { $count ->
    [one] Wo die Naht die Linie kreuzen muss, ist auf dem Papier ein Strich: Eine Stecknadel, dort hindurchgestochen, zeigt, ob sie es tut.
   *[other] Wo die Nähte die Linie kreuzen müssen, sind auf dem Papier Striche: Stecknadeln, dort hindurchgestochen, zeigen, ob sie es tun.
}
pieced-look = { $count ->
    [one] Seine Naht muss auf der dünnen gestrichelten Linie laufen.
   *[other] Seine Nähte müssen auf den dünnen gestrichelten Linien laufen.
}

move-fold = Falten.
move-lay = Anlegen.
move-sew = Nähen.
move-look = Prüfen.
move-pin = Stecken.
move-cut = Zuschneiden.
move-mark = Kennzeichnen.
move-piece = Zusammensetzen.
move-match = Ausrichten.
move-press = Bügeln.

free = Reiße zuerst das Papier von den Stichen von { $sections } los, wo sie den Falz kreuzen werden.

fold-teach = Falte das Papier in ganzer Breite, bedruckte Seite auf bedruckte Seite, sodass der Falz auf Linie { $section } liegt; die Kante einer Postkarte an der Linie hilft dabei. Schneide den Stoff, der über den Falz hinaussteht, auf { $allowance } zurück.
fold = Der Falz geht in ganzer Breite über das Papier, an Linie { $section } entlang. Schneide den Stoff dahinter auf { $allowance } zurück.

lay-teach = Drehe den Stoff zu dir. Lege das neue Teil mit der rechten Stoffseite nach unten auf das, was da ist, seine Kante von { $width } genau auf die Kante, die du gerade geschnitten hast; das Übrige zeigt zurück über das Genähte, von seinem Abschnitt weg. Stecke es fest, nicht zu nah an der Linie, falte das Papier auf und drehe die bedruckte Seite nach oben.
lay = Die rechte Stoffseite nach unten auf das, was da ist, die Kante von { $width } auf die geschnittene Kante. Stecke das Teil fest und falte das Papier auf.
lay-side = Die rechte Stoffseite nach unten auf das, was da ist, die { $side ->
    [long] lange
   *[short] kurze
} Seite an der Linie, genau auf der geschnittenen Kante; die Ecke gegenüber zeigt zurück über das Genähte. Stecke das Teil fest und falte das Papier auf.
lay-side-teach = Drehe den Stoff zu dir. Lege das neue Teil mit der rechten Stoffseite nach unten auf das, was da ist, seine { $side ->
    [long] lange
   *[short] kurze
} Seite genau auf die Kante, die du gerade geschnitten hast; die Ecke gegenüber zeigt zurück über das Genähte, von seinem Abschnitt weg. Stecke es fest, nicht zu nah an der Linie, falte das Papier auf und drehe die bedruckte Seite nach oben.
lay-motif = Halte Papier und Teil vor dem Feststecken gegen das Licht, sodass das Motiv aufrecht in Abschnitt { $section } liegt.
reach = Das Teil muss { $left } über das linke Ende der Linie und { $right } über das rechte hinausragen.
reach-none = Über die Enden der Linie braucht das Teil nicht hinauszuragen.
reach-left = Das Teil muss { $length } über das linke Ende der Linie hinausragen; rechts darf es mit ihr enden.
reach-right = Das Teil muss { $length } über das rechte Ende der Linie hinausragen; links darf es mit ihr enden.
reach-both = Das Teil muss an jedem Ende { $length } über die Linie hinausragen.
reach-teach = Sieh auf die bedruckte Seite, Abschnitt { $section } über der Linie: Das Teil muss { $left } über das linke Ende der Linie und { $right } über das rechte hinausragen. Tut es das nicht, schiebe es an der geschnittenen Kante entlang. Eine Stecknadel, an jedem Ende der Linie gerade hindurchgestochen, zeigt es.
reach-teach-both = Sieh auf die bedruckte Seite: Das Teil muss an jedem Ende { $length } über die Linie hinausragen. Tut es das nicht, schiebe es an der geschnittenen Kante entlang. Eine Stecknadel, an jedem Ende der Linie gerade hindurchgestochen, zeigt es.

lay-askew = Dieses Teil liegt nicht an der Linie entlang: Es ist um { $degrees } zu ihr gedreht, damit { $why ->
    [print] sein Muster in die richtige Richtung zeigt
   *[grain] sein Fadenlauf gerade zum Block liegt
}. Das Bild zeigt es aufgeklappt. Falte das Papier auf und drehe den Stoff zu dir. Halte das Teil so vor Abschnitt { $section }, wie es fertig aussehen wird, die rechte Stoffseite zu dir, sodass es den Abschnitt bedeckt und ringsum mehr als { $allowance } darüber hinausragt, auch über die Linie. Stecke es entlang der Linie fest, dann klappe es an diesen Nadeln um, sodass es mit der rechten Stoffseite nach unten auf dem liegt, was da ist, und drehe die bedruckte Seite nach oben.
lay-askew-short = Auch dieses Teil ist um { $degrees } zu seiner Linie gedreht, und das Bild zeigt es aufgeklappt. Halte es so vor Abschnitt { $section }, wie es aussehen wird, sodass es ringsum mehr als { $allowance } darüber hinausragt, stecke es entlang der Linie fest und klappe es an den Nadeln um.
lay-askew-trim = Bevor du das Teil aufklappst, schneide auch seine Nahtzugabe auf { $allowance } zurück.
lay-print = Achte auf das Muster: Ist das Teil aufgeklappt, muss es zeigen wie der Pfeil auf der Vorlage.
lay-several = Wohin sein Muster zeigen muss, hängt davon ab, wo die Einheit im Block stehen wird: Schreibe vor dem Nähen auf jedes Papier seinen Platz und zeichne ein, wo dort oben ist, wie es die Karte der Einheiten zeigt.

sew-teach-through = Stelle die Maschine auf einen kurzen Stich, etwa 1,5 mm, und vernähe nicht. Nähe auf der Linie, die bedruckte Seite oben, von Schnittlinie zu Schnittlinie: Beide Enden dieser Linie liegen am Rand der Einheit.
sew-teach-inside = Stelle die Maschine auf einen kurzen Stich, etwa 1,5 mm, und vernähe nicht. Nähe auf der Linie, die bedruckte Seite oben. Beginne zwei oder drei Stiche vor der Linie und höre ebenso weit hinter ihr auf; beide Enden liegen im Innern der Einheit.
sew-teach-left = Stelle die Maschine auf einen kurzen Stich, etwa 1,5 mm, und vernähe nicht. Nähe auf der Linie, die bedruckte Seite oben: am linken Ende bis zur Schnittlinie weiter, am rechten nur zwei oder drei Stiche über das Ende der Linie.
sew-teach-right = Stelle die Maschine auf einen kurzen Stich, etwa 1,5 mm, und vernähe nicht. Nähe auf der Linie, die bedruckte Seite oben: am rechten Ende bis zur Schnittlinie weiter, am linken nur zwei oder drei Stiche über das Ende der Linie.
sew-through = Auf der Linie, von Schnittlinie zu Schnittlinie.
sew-inside = Auf der Linie, an jedem Ende zwei oder drei Stiche darüber hinaus und nicht weiter.
sew-left = Auf der Linie: links weiter bis zur Schnittlinie, rechts nur zwei oder drei Stiche über das Ende.
sew-right = Auf der Linie: rechts weiter bis zur Schnittlinie, links nur zwei oder drei Stiche über das Ende.
sew-hands = Bei { $mirrored } sind links und rechts vertauscht.

flip-teach = Lass das Papier flach. Klappe das Teil auf der Stoffseite über die Naht auf, streiche es mit dem Fingernagel aus und halte die Einheit gegen das Licht.
flip = Klappe das Teil auf und halte es gegen das Licht.
look-lines-edge = Es muss { $section } bedecken und { $allowance } über { $count ->
    [one] die Linie
   *[other] die Linien
} von { $lines } hinausragen; wo { $section } am Rand der Einheit liegt, muss es bis zur Schnittlinie reichen.
look-lines = Es muss { $section } bedecken und { $allowance } über { $count ->
    [one] die Linie
   *[other] die Linien
} von { $lines } hinausragen.
look-edge = Es muss { $section } bedecken und am ganzen Rand der Einheit bis zur Schnittlinie reichen.
flip-press-teach = Wenn ja, bügle es aufgeklappt, ohne Dampf, von der Stoffseite. Wenn nicht, trenne diese eine Naht auf und lege das Teil neu an.
flip-press = Dann bügle es.

care-label = Achtung
care-turn = Lege es gerade. Liegt es um mehr als { $degrees } verdreht, reicht es nicht mehr überallhin.
care-stray = Lege es gerade: Weicht seine Kante an einem Ende um mehr als { $length } von der geschnittenen Kante ab, reicht es nicht mehr überallhin.
care-turn-none = Lege es so gerade, wie du kannst, oder schneide es größer zu: Auch nur ein wenig verdreht, reicht es nicht mehr überallhin.

## Steps: trimming

trim-heading = Beschneiden und messen
trim-teach = Drehe die bedruckte Seite nach oben und beschneide Papier und Stoff zusammen auf der Schnittlinie, der gestrichelten äußeren Linie, mit einer alten Klinge, die für Papier da ist.
trim-short = Beschneide Papier und Stoff auf der Schnittlinie.
trim-rectangle = Die Einheit muss jetzt { $size } messen.
trim-square = Die Einheit muss jetzt in beiden Richtungen { $size } messen.
trim-edges = Von der längsten Kante an, auf der bedruckten Seite im Uhrzeigersinn, müssen die Kanten der Einheit jetzt messen: { $lengths }.
trim-edges-equal = Jede Kante der Einheit muss jetzt { $length } messen.
trim-edges-hands = Von der längsten Kante an, auf der bedruckten Seite bei { $first } im Uhrzeigersinn und bei { $mirrored } gegen ihn, müssen die Kanten der Einheit jetzt messen: { $lengths }.
trim-keep = Lass das Papier noch darin. Ist das Kennzeichen abgeschnitten, schreibe es neu darauf: { $marks }.

## Steps: joins

joins-heading = Die Einheiten zusammennähen
joins-intro = Nähe in dieser Reihenfolge zusammen. Was Verbindungsnaht 4 zusammenfügt, heißt Gruppe 4, wenn nicht ein Name vor dem Doppelpunkt steht. Längen werden auf der Nahtlinie gemessen, von dem Ende an, das der Schritt nennt, von vorn gesehen. Die Worte an den Kanten eines Papiers sagen, woran jede genäht wird.
joins-key = In den Bildern sind Kreuze die Enden, die du steckst, volle Punkte die Passpunkte, offene die Spitzen; der Pfeil zeigt, zu welcher Seite die Nahtzugaben gehen, zwei Pfeile, dass sie auseinander liegen.
joins-key-leaves = Wo die Reihenfolge gezeigt ist, sagen eingekreiste Zahlen, in welcher die Nähte genäht werden; was gestrichelt ist, bleibt zuerst offen.
joins-copies = Nähe jede Verbindungsnaht { $copies }-mal, für jeden Block einmal, bevor die nächste kommt.
join-heading = Verbindungsnaht { $number } · { $left } an { $right }
join-heading-named = Verbindungsnaht { $number } · { $name }: { $left } an { $right }
join-place = { $name } ({ $mark })
join-made = Gruppe { $number }
join-end-upper = oberen
join-end-lower = unteren
join-end-left = linken
join-end-right = rechten
join-lay-teach = { $left } und { $right } kommen an der Naht, die { $length } lang ist, rechts auf rechts aufeinander: Die Papiere liegen außen, auf beiden Seiten. Stich an jedem Ende der fetten Linie eine Stecknadel gerade durch beide Papiere, sodass sie auf beiden Seiten durch die Ecke geht; halte diese Nadeln senkrecht, während du die Naht dicht daneben flach steckst.
join-lay = { $left } und { $right } kommen an der Naht von { $length } rechts auf rechts aufeinander. Stecke beide Enden durch die Ecken der fetten Linien.
join-lay-without = { $left } und { $right } kommen an der Naht von { $length } rechts auf rechts aufeinander.
join-plain-both = Keine der beiden Seiten hat an dieser Naht Papier: Lege Kante auf Kante, die Enden bündig. Stecke beide Enden, { $allowance } von den Kanten.
join-plain-one = { $plain } { $count ->
    [one] hat
   *[other] haben
} kein Papier: Lege die geschnittene Kante auf die beschnittene Kante der anderen Seite, die Enden bündig, und drehe das Papier nach oben. Stecke beide Enden durch die Ecke der fetten Linie auf dem Papier; auf der Seite ohne Papier kommt die Nadel { $allowance } von beiden Kanten heraus.
join-match = { $count ->
    [one] An einem Passpunkt
   *[other] An { $count } Passpunkten
} treffen sich Nähte beider Seiten, { $places } vom { $end } Ende; { $count ->
    [one] ein voller Punkt zeigt ihn auf beiden Papieren. Stich dort
   *[other] volle Punkte zeigen sie auf beiden Papieren. Stich an jedem
} eine Stecknadel durch beide Papiere, wo sein Strich die fette Linie trifft, und stecke dicht daneben fest.
join-match-without = { $count ->
    [one] An einem Passpunkt
   *[other] An { $count } Passpunkten
} treffen sich Nähte beider Seiten, { $places } vom { $end } Ende. Auf dem Papier ist dort ein voller Punkt; auf einer Seite ohne Papier endet dort ihre Naht. Stich { $count ->
    [one] dort eine Stecknadel durch beides und stecke dicht daneben fest.
   *[other] an jedem eine Stecknadel durch beides und stecke dicht daneben fest.
}
join-nests = { $count ->
    [one] Die Nahtzugaben zeigen dort in entgegengesetzte Richtungen: Schiebe sie gegeneinander, bis sie einrasten, dann halten sie den Punkt von selbst.
   *[other] Die Nahtzugaben zeigen an jedem von ihnen in entgegengesetzte Richtungen: Schiebe sie gegeneinander, bis sie einrasten.
}
join-nests-at = Bei { $places } zeigen die Nahtzugaben der beiden Seiten in entgegengesetzte Richtungen: Schiebe sie gegeneinander, bis sie einrasten.
join-same-way = Bei { $places } zeigen die Nahtzugaben beider Seiten in dieselbe Richtung und können nicht einrasten: { $why }.
join-why-units = Sie liegen so, wie die Reihenfolge des Nähens in den Einheiten sie gelegt hat
join-why-stated = Die Anleitung sagt, wohin eine frühere Verbindungsnaht gebügelt wird
join-why-tips = Eine frühere Verbindungsnaht ist von ihren Spitzen weg gebügelt
join-why-given-up = Wäre eine frühere Verbindungsnaht andersherum gebügelt, könnten andere Punkte nicht einrasten
join-mixed = Bei { $places } enden auf einer Seite mehrere Nähte, und ihre Nahtzugaben zeigen nicht alle in eine Richtung, also können sie nicht einrasten.
join-lies-open = Bei { $places } liegen die Nahtzugaben einer früheren Verbindungsnaht auseinander, und dann rastet nichts ein.
join-feel = { $count ->
    [one] Wo nichts einrastet, hält nur die Nadel den Punkt: Sieh nach, dass sie auf beiden Seiten durch die Naht geht, und fühle zwischen Finger und Daumen, dass eine Naht genau auf der anderen liegt.
   *[other] Wo nichts einrastet, halten nur die Nadeln die Punkte: Sieh nach, dass jede auf beiden Seiten durch die Naht geht, und fühle zwischen Finger und Daumen, dass eine Naht genau auf der anderen liegt.
}
join-tip = { $count ->
    [one] Ein offener Punkt zeigt eine Spitze, { $places } vom { $end } Ende. Dort treffen keine Nähte aufeinander, aber die Naht muss genau hindurchlaufen, sonst wird die Spitze
   *[other] Offene Punkte zeigen Spitzen, { $places } vom { $end } Ende. Dort treffen keine Nähte aufeinander, aber die Naht muss genau hindurchlaufen, sonst werden die Spitzen
} gekappt.
join-look = Hefte die Punkte mit ein paar langen Stichen, öffne die Naht und sieh sie von vorn an. Ist alles, wo es sein soll, nähe auf der Linie durch beide Papiere, wieder mit dem kurzen Stich, von Rand zu Rand, und ziehe die langen Stiche heraus.
join-look-plain = Auf der Linie durch beide Papiere, mit dem kurzen Stich, von Rand zu Rand.
join-look-without = Hefte die Punkte mit ein paar langen Stichen, öffne die Naht und sieh sie von vorn an. Ist alles, wo es sein soll, nähe { $paper ->
    [none] { $allowance } von den Kanten, mit einem Stich von etwa 2{"\u00A0"}mm
    [one] auf der Linie, das Papier oben, mit dem kurzen Stich
   *[some] auf der Linie, wo Papier oben liegt, und { $allowance } von den Kanten, wo keins ist, mit dem kurzen Stich
}, von Rand zu Rand, und ziehe die langen Stiche heraus.
join-look-plain-without = { $paper ->
    [none] { $allowance } von den Kanten, mit einem Stich von etwa 2{"\u00A0"}mm
    [one] auf der Linie, das Papier oben, mit dem kurzen Stich
   *[some] auf der Linie, wo Papier oben liegt, und { $allowance } von den Kanten, wo keins ist, mit dem kurzen Stich
}, von Rand zu Rand.
join-paper-strip = Reiße das Papier ab, das in der Nahtzugabe dieser Verbindungsnaht jenseits der Stiche liegt, und nur das.
join-press-toward = Die Nahtzugaben in Richtung { $side }.
join-press-open = Die Nahtzugaben auseinander, eine nach jeder Seite.
join-spin = Vier Nähte treffen sich { $places } vom { $end } Ende. { $count ->
    [one] Öffne die zwei oder drei Stiche der früheren Verbindungsnähte, die dort ihre Nahtzugaben halten, und lass alle Nahtzugaben in einer Richtung herumlaufen: Dann liegt die Kreuzung flach. Jenseits davon liegen die dieser Naht zur anderen Seite, und so soll es sein.
   *[other] Öffne an jedem dieser Punkte die zwei oder drei Stiche der früheren Verbindungsnähte, die dort ihre Nahtzugaben halten, und lass alle Nahtzugaben in einer Richtung herumlaufen: Dann liegt die Kreuzung flach. Jenseits jedes Punktes liegen die dieser Naht zur anderen Seite, und so soll es sein.
}
join-thick = { $layers } Lagen liegen { $places } vom { $end } Ende aufeinander: Nähe dort langsam, drehe das Handrad, wenn die Nadel sich müht, und schneide die Nahtzugaben etwas abgestuft zurück.
join-paper-out = Das Papier von { $places } darf jetzt heraus: Dort { $count ->
    [one] ist auf jeder Seite ein Nachbar
   *[other] sind auf allen Seiten Nachbarn
} angenäht.

join-pin-teach = Die Papiere liegen außen, auf beiden Seiten. Stich am Ende der fetten Linie eine Stecknadel gerade durch beide Papiere, sodass sie auf beiden Seiten durch die Ecke geht; halte sie senkrecht, während du die Naht dicht daneben flach steckst.

ring-first-heading = Verbindungsnaht { $number }, der erste Teil · { $left } an { $right }
ring-rest-heading = Verbindungsnaht { $number }, der Rest · { $left } an { $right }
ring-rest-heading-named = Verbindungsnaht { $number }, der Rest · { $name }: { $left } an { $right }
ring-line-first = { $first } von { $whole }
ring-line-rest = die übrigen { $rest } von { $whole }
ring-first-lay = { $member } und { $centre } kommen rechts auf rechts aufeinander, entlang der Kante von { $centre }, die { $edge } lang ist. Die Kante von { $member } ist länger: Sie läuft am { $open } Ende weiter, wo ganz zuletzt { $last } hinkommt. Stecke am { $closed } Ende durch die Ecken beider fetten Linien.
ring-first-sew = Auf der Linie durch beide Papiere, mit dem kurzen Stich, vom { $closed } Ende bis zum Strich mit dem Querbalken, { $far } weit, und nicht weiter. Sichere das Nahtende mit zwei oder drei Stichen zurück. Der Rest der Naht bleibt offen.
ring-first-paper = Reiße an der genähten Strecke das Papier der Nahtzugabe ab; an der offenen lass es darin.
ring-first-press = Bügle nur, was genäht ist.
ring-lay = { $member } kommt rechts auf rechts auf { $centre } und { $before }, deren Kanten in einer Linie liegen, an der Naht von { $length }. Stecke beide Enden durch die Ecken der fetten Linien.
ring-fold-away = Falte { $first } an der offenen Strecke von Verbindungsnaht { $number } zurück, weg von dieser Naht, und stecke es fest, damit kein Stich es fasst.
ring-rest-lay = Löse { $first } und lege seine Kante rechts auf rechts an { $centre } und { $last }; die anderen faltest du aus dem Weg. Stecke am { $open } Ende durch die Ecken der fetten Linien und die Naht flach bis zu den Stichen.
ring-rest-sew = Auf der Linie durch beide Papiere, mit dem kurzen Stich: Beginne auf der Naht, zwei oder drei Stiche vor dem Strich mit dem Querbalken, und nähe bis zur Kante am { $open } Ende weiter.
ring-flat = Alle Nahtzugaben um { $centre } gehen jetzt in einer Richtung herum.
ring-care = Höre am Strich auf. Ist diese Naht bis zu ihrem Ende genäht, kann { $last } nicht mehr angenäht werden: Trenne sie bis zum Strich auf.

inset-between-heading = Verbindungsnaht { $number }, bis zum Punkt · { $left } an { $right }
inset-leg-heading = Verbindungsnaht { $number }, vom Punkt aus · { $left } an { $right }
inset-leg-heading-named = Verbindungsnaht { $number }, vom Punkt aus · { $name }: { $left } an { $right }
inset-between-sew = Auf der Linie durch beide Papiere, mit dem kurzen Stich, vom { $outer } Ende bis zu dem Punkt, an dem die fetten Linien abbiegen, und nicht weiter. Höre dort mit der Nadel im Stoff auf, eine Nahtzugabe von { $allowance } vor der Schnittkante, und sichere das Nahtende mit zwei oder drei Stichen zurück. In die Ecke, die bleibt, kommt { $first }.
inset-paper = Reiße das Papier in der Nahtzugabe dieser Verbindungsnaht ab, auch über den Punkt hinaus, damit sich die Lagen dort drehen lassen.
inset-crease = Streiche die Nahtzugaben mit dem Fingernagel zu { $side } hin; gebügelt wird, wenn die Ecke geschlossen ist.
inset-crease-open = Streiche die Nahtzugaben mit dem Fingernagel auseinander; gebügelt wird, wenn die Ecke geschlossen ist.
inset-leg-lay = { $first } kommt rechts auf rechts auf { $second }, an der Naht von { $length }; falte { $third } aus dem Weg, die Nahtzugabe auch. Stich am Punkt eine Stecknadel gerade durch beide Papiere: Sie kommt dort heraus, wo die Stiche von Verbindungsnaht { $number } enden. Stecke auch am { $outer } Ende durch die Ecken.
inset-leg-sew = Drehe am Handrad und senke die Nadel genau in den Punkt. Sichere die ersten Stiche und nähe auf der Linie nach außen, durch beide Papiere, bis zur Kante am { $outer } Ende.
inset-turn = Drehe die Lagen um den Punkt, bis { $first } rechts auf rechts auf { $third } liegt, an der Naht von { $length }; was schon genäht ist, faltest du aus dem Weg. Nichts wird eingeschnitten: Die Nahtzugaben sind am Punkt frei. Stecke am Punkt und am { $outer } Ende durch die Ecken.
inset-turn-sew = Senke die Nadel in denselben Punkt, sichere die ersten Stiche und nähe nach außen, bis zur Kante am { $outer } Ende. Öffne alles und schau von vorn: Am Punkt ist weder ein Loch noch eine Falte.
inset-press-one = die Nahtzugaben von Verbindungsnaht { $number } zu { $side }
inset-press = Bügle vom Punkt nach außen: { $sides }.
inset-press-open = Bügle alle drei Nähte vom Punkt nach außen auseinander.
inset-spun = So gehen sie in einer Richtung um den Punkt, und er liegt flach.
inset-care = Keinen Stich über den Punkt hinaus: Er zöge eine Falte. Keinen zu wenig: Es bliebe ein Loch.

block-heading = Der fertige Block
block-measures = Bevor der Block an etwas angenäht wird, muss er { $size } messen.
block-measures-square = Bevor der Block an etwas angenäht wird, muss er in Breite und Höhe { $size } messen.
block-measures-box = Bevor der Block an etwas angenäht wird, muss er an der breitesten und an der höchsten Stelle { $size } messen.
block-paper = Lass das übrige Papier darin, bis die Nachbarn des Blocks angenäht sind. Steht er allein, nimm das Papier jetzt heraus, von der Mitte nach außen, und bügle noch einmal.
bias-edge = { $side ->
    [top] die obere Kante ({ $units })
    [right] die rechte Kante ({ $units })
    [bottom] die untere Kante ({ $units })
    [left] die linke Kante ({ $units })
    [top-left] die Kante oben links ({ $units })
    [top-right] die Kante oben rechts ({ $units })
    [bottom-left] die Kante unten links ({ $units })
   *[bottom-right] die Kante unten rechts ({ $units })
}
bias-edges = { $count ->
    [one] { $edges } ist schräg zum Fadenlauf geschnitten und dehnt sich
   *[other] { $edges } sind schräg zum Fadenlauf geschnitten und dehnen sich
}: Lass das Papier daran, bis ein Rand oder ein Nachbar angenäht ist.
block-one-paper = Der Block ist eine einzige Einheit: Es ist nichts zusammenzunähen.

note-label = Hinweis
own-label = Vom Entwurf
figure-printed-caption-of = Bedruckte Seite, { $mark }
figure-flipped-caption = Bedruckte Seite, aufgeklappt
figure-flipped-caption-of = Bedruckte Seite, { $mark }, aufgeklappt
figure-front-caption-of = Von vorn, { $mark }

## At the end

colouring-title = Probiere deine Farben
colouring-intro = Der Block in Umrissen, für Buntstifte oder für Stückchen deiner Stoffe.
colourings-title = Andere Farbstellungen
colourings-intro = Dieselben Vorlagen in anderen Stoffen. Was du zuschneidest und kaufst, ändert sich mit ihnen: Frage nach der Anleitung zu der Farbstellung, die dir gefällt.
colourings-drawn = Wie in dieser Anleitung
colourings-block = { $block }: { $colouring }
colourings-change = { $from } wird { $to }
publisher-title = Bedingungen und Kontakt
contact-title = Kontakt
report-fault-title = Wenn etwas nicht stimmt
report-fault = War ein Teil zu kurz, stimmt ein Maß nicht oder ist ein Satz nicht zu verstehen, dann melde es. Nenne die Ausgabe, die du hast ({ $edition }), die Größe und den Abschnitt.
report-fault-where = Melde es hier:
editions-title = Ausgaben
editions-this = Das ist Ausgabe { $edition }.
editions-edition = Ausgabe
editions-date = Tag
editions-what = Was sie brachte
made-with = Jeder Zuschnitt, jeder Passpunkt und jede Menge in dieser Anleitung ist aus der Zeichnung berechnet, und die Reihenfolge beim Nähen wurde vor dem Druck bewiesen.

## The tester's edition

tester-stamp = Ausgabe zum Probenähen: nicht zur Weitergabe
tester-title = Bericht vom Probenähen
tester-intro = Danke, dass du das vor allen anderen nähst. Fülle aus, was du kannst; eine Lücke ist besser als geraten. Am meisten hilft ein Maß und der Name des Abschnitts, zu dem es gehört.
tester-name = Dein Name
tester-printer = Drucker und Papier
tester-bar = Messbalken auf Blatt 1: gemessen
tester-machine = Maschine, Nadel, Stichlänge
tester-time-cutting = Zeit für Drucken und Zuschneiden
tester-units-caption = Die Einheiten, beschnitten
tester-should = Soll messen
tester-measured = Gemessen
tester-time = Zeit
tester-remarks = Bemerkungen
tester-short-caption = Wo ein Teil zu kurz war
tester-section = Abschnitt
tester-short = Zu kurz um
tester-edge = An welcher Kante oder Ecke
tester-unclear = Welchen Schritt musstest du zweimal lesen?
tester-other = Was soll sich noch ändern, bevor die Anleitung erscheint?

## Cautions

cautions-title = Zur Sicherheit
cautions-intro = Was die Hersteller von Maschine, Bügeleisen, Rollschneider und Stoff vorschreiben, geht vor. Dies sind die üblichen Hinweise; sie ersetzen weder jene Vorschriften noch ärztlichen Rat.
caution-cutter = Rollschneider sind scharf wie Rasierklingen. Schließe die Klinge nach jedem Schnitt, schneide von dir weg und halte die Finger von der Kante des Lineals fern. Papier macht Klingen stumpf, und eine stumpfe Klinge rutscht ab: Nimm für Papier eine eigene und wechsle sie.
caution-iron = Bügeleisen verbrennen, und Papier versengt: Bügle ohne Dampf und lass ein heißes Bügeleisen nie allein.
caution-print = Toner und Tinte können sich unter Hitze lösen. Probiere es an einem Rest und bügle von der Stoffseite.
caution-tape = Klebeband schmilzt unter dem Bügeleisen. Füge die Teilstücke einer langen Vorlage stattdessen mit Kleber zusammen.
caution-bleed = Dunkle Stoffe können ausbluten. Wasche oder prüfe sie, bevor sie neben hellen liegen.
caution-needle = Halte die Maschine an, bevor deine Finger in die Nähe der Nadel kommen, und nähe nicht über Stecknadeln.
caution-pins = Zähle deine Stecknadeln, und die Stücke einer zerbrochenen Nadel, vorher und nachher.
caution-magnets = Halte magnetische Nadelschalen und Ähnliches von Implantaten wie Herzschrittmachern fern und folge dem Rat ihres Herstellers.
caution-children = Halte Rollschneider, Bügeleisen und Nadeln von Kindern und Haustieren fern.

planned = { $thorough ->
    [yes] Wie sich dieses Muster in Vorlagen teilt, hat eine gründliche Suche gefunden.
   *[no] Wie sich dieses Muster in Vorlagen teilt, hat eine Suche gefunden.
} { $proved ->
    [yes] Dass es mit weniger Vorlagen nicht geht, ist bewiesen.
   *[no] Vielleicht geht es mit weniger Vorlagen; bewiesen ist es nicht.
}
footer-made = Längen sind auf ¹⁄₁₆ Zoll gerundet; wie weit ein Teil über seine Linie hinausragt, ist abgerundet, damit du dich darauf verlassen kannst.
footer-made-metric = Längen sind auf ganze Millimeter gerundet; wie weit ein Teil über seine Linie hinausragt, ist abgerundet, damit du dich darauf verlassen kannst.

## Sheets and foundations

foundation-mark-long = { $mark }  ·  { $title }, Ausgabe { $edition }
foundation-mark-middle = { $mark }  ·  Ausgabe { $edition }
foundation-name-long = { $mark }  ·  { $unit }  ·  { $title }, Ausgabe { $edition }
foundation-name-middle = { $mark }  ·  { $unit }  ·  Ausgabe { $edition }
foundation-name-short = { $mark }  ·  Ausg. { $edition }
edge-to = an { $marks }
edge-to-more = an { $marks } …
edge-of-block = Rand des Blocks
edge-of-block-short = Rand
part-name = { $mark }  ·  Teilstück { $number } von { $parts }
part-name-long = { $mark }  ·  Teilstück { $number } von { $parts }  ·  { $title }, Ausgabe { $edition }
part-glue = Teilstück { $number } obenauf kleben: seine dicke graue Kante an die Strichpunktlinie, Kreuz auf Kreuz
part-cut = an der dicken grauen Kante abschneiden; sie kommt obenauf, auf Teilstück { $number }
sheet-title = Blatt { $number } von { $sheets }
sheet-number = Blatt { $number } von { $sheets }
sheet-edition = Ausgabe { $edition }  ·  { $size }
sheet-times = { $times ->
    [1] einmal drucken
    [2] zweimal drucken
   *[other] { $times }-mal drucken
}
sheet-side = Nähe auf dieser bedruckten Seite; der Stoff liegt auf der anderen. Die Zeichnung ist das Spiegelbild der Vorderseite.
sheet-check = Drucke mit 100 %, nicht „An Seite anpassen“. Miss das Quadrat nach und den Messbalken am Fuß der Seite.
sheet-ticks = Markierungen in der Nahtzugabe: Volle Punkte sind Passpunkte, offene sind Spitzen, die die Verbindungsnaht genau treffen muss.
sheet-ticks-stop = Markierungen in der Nahtzugabe: Volle Punkte sind Passpunkte, offene sind Spitzen, die die Verbindungsnaht genau treffen muss; an einem Querbalken endet der erste Teil einer Naht.
sheet-strips = Dünne Striche in einem Abschnitt zeigen eine Naht seines Stoffes: Nähe nicht darauf.
bar-inches = { $number } Zoll
bar-centimetres = { $number } cm
not-to-size = nicht in Originalgröße – nicht darauf nähen

## On a screen

screen-skip = Zur Anleitung springen
screen-parts = In dieser Anleitung
screen-done = Erledigt
screen-count = { $done } von { $count } erledigt
screen-next = Zum ersten Schritt, der noch offen ist
screen-kept = Was du auf dieser Seite abhakst und schreibst, bleibt in diesem Browser; nichts wird gesendet.
screen-not-kept = Dieser Browser lässt die Seite nichts behalten: Haken und Worte bleiben nur, bis sie geschlossen wird.
screen-anew = Neu beginnen
screen-anew-question = „{ $part }“ neu beginnen? Die Haken darin, und was du hineingeschrieben hast, gehen verloren.
screen-anew-yes = Neu beginnen
screen-anew-no = Behalten

## Figures

# Was ein Bild zeigt, für alle, die es nicht sehen.

print-up = oben
print-two-way = Muster
figure-front-caption = Von vorn
figure-printed-caption = Bedruckte Seite
figure-strips-caption = Die Streifen, aneinandergenäht
figure-where = { $place ->
    [upper-left] oben links
    [upper] oben
    [upper-right] oben rechts
    [left] links
    [right] rechts
    [lower-left] unten links
    [lower] unten
    [lower-right] unten rechts
   *[middle] in der Mitte
}
figure-section = { $number } aus { $fabric }

front-alt = Der Block „{ $block }“, wie er fertig von vorn aussieht, in diesen Stoffen: { $fabrics }.
coloured-alt = Der Block „{ $block }“ von vorn in einer anderen Farbstellung: { $fabrics }.
colouring-alt = Die Umrisse der { $count } Abschnitte des Blocks „{ $block }“, ohne Farben und Kennzeichen, zum Ausmalen.
map-alt = Der Block „{ $block }“ von vorn, in seine Einheiten geteilt: { $units }. Jeder Abschnitt trägt das Kennzeichen seiner Einheit und seine Nummer.
map-alt-many = Der Block „{ $block }“ von vorn, in seine { $count } Einheiten geteilt. Jeder Abschnitt trägt das Kennzeichen seiner Einheit und seine Nummer.
map-unit = { $mark } ({ $name }) { $place }
map-unit-plain = { $mark } ({ $name }, ein Maßteil) { $place }
foundation-alt = Vorlage { $name }, stark verkleinert, wie sie gedruckt ist: als Spiegelbild der Vorderseite. Ihre Abschnitte: { $sections }.
foundation-alt-many = Vorlage { $name } mit ihren { $count } Abschnitten, stark verkleinert, wie sie gedruckt ist: als Spiegelbild der Vorderseite.

figure-front-alt = Vorlage { $mark } von vorn, { $section ->
    [1] mit Abschnitt 1 in seinem Stoff
    [2] mit den Abschnitten 1 und 2 in ihren Stoffen
   *[other] mit den Abschnitten 1 bis { $section } in ihren Stoffen
}. Abschnitt { $section } (in der Einheit { $place }) ist umrandet; sein Stoff ist { $fabric }.
figure-plain-alt = Das Maßteil { $mark } aus { $fabric }, von vorn: ein Rechteck von { $size }. Eine gestrichelte Linie { $allowance } innerhalb der Kanten zeigt, wo seine Nähte laufen werden.
figure-printed-first-alt = Vorlage { $mark } von der bedruckten Seite. Das Teil aus { $fabric } liegt unter Abschnitt 1 und ragt ringsum mindestens { $allowance } darüber hinaus.
figure-printed-first-pieced = Vorlage { $mark } von der bedruckten Seite, wie gedruckt. Das zusammengesetzte Teil aus { $fabrics } liegt unter Abschnitt 1, seine Nähte auf den gestrichelten Linien, und ragt ringsum mehr als { $allowance } darüber hinaus.
figure-printed-alt = Vorlage { $mark } von der bedruckten Seite, so gedreht, dass Abschnitt { $section } über seiner Linie liegt. { $sewn ->
    [1] Abschnitt 1 ist schon da.
    [2] Die Abschnitte 1 und 2 sind genäht.
   *[other] Die Abschnitte 1 bis { $sewn } sind genäht.
} Das Papier wird an der Linie gefaltet; sie ist fett gezeichnet, so weit sie genäht wird.
figure-piece-beneath = Das Teil aus { $fabric } liegt unter dem Genähten, seine Kante { $allowance } hinter der Linie.
figure-piece-askew = Das Teil aus { $fabric } ist so gezeigt, wie es aufgeklappt liegen wird, schräg zur Linie, über Abschnitt { $section }.
figure-piece-pieced = Das zusammengesetzte Teil aus { $fabrics } ist so gezeigt, wie es aufgeklappt liegen wird, über Abschnitt { $section }, seine Nähte auf den gestrichelten Linien.
figure-strips-alt = Die Streifen von Abschnitt { $section }, aneinandergenäht, von vorn, in dieser Reihenfolge: { $fabrics }. Ihre Nähte sind { $length } lang; ein Pfeil über jede zeigt, wohin ihre Nahtzugaben gebügelt sind. Ein dünner Umriss zeigt den Abschnitt darauf.
figure-reach = Es ragt { $left } über das linke Ende der Linie und { $right } über das rechte hinaus.
figure-reach-both = Es ragt an jedem Ende { $length } über die Linie hinaus.
figure-several = Wie weit es hinausragt, hängt davon ab, wie die Einheit im Block gedreht ist; gezeigt ist einer der Zuschnitte.

figure-plan-alt = Block { $block } von vorn, wie er geplant ist: { $papers ->
    [one] eine Vorlage
   *[other] { $papers } Vorlagen, jede in ihrem eigenen Ton
}, die Felder in der Reihenfolge des Nähens nummeriert, und { $joins ->
    [one] eine Verbindungsnaht, dick gezeichnet.
   *[other] { $joins } Verbindungsnähte, dick gezeichnet und in der Reihenfolge des Nähens nummeriert.
}
figure-stuck-alt = Block { $block } von vorn. { $areas } Felder sind getönt, die keine gerade Naht teilt. { $seams ->
    [0] Nähte, die sie lösen würden, sind nicht gefunden.
    [one] Eine gestrichelte Linie, durch ein Feld weitergeführt, löst sie.
   *[other] { $seams } gestrichelte Linien, durch Felder weitergeführt, lösen sie.
}
figure-join-title = Verbindungsnaht { $number }
figure-join-first-title = Verbindungsnaht { $number }, der erste Teil
figure-join-rest-title = Verbindungsnaht { $number }, der Rest
figure-order-title = Die Reihenfolge der Verbindungsnähte { $first } bis { $last }
figure-units = { $count } Einheiten
figure-join-alt = Verbindungsnaht { $number } von vorn, die beiden Seiten etwas auseinandergerückt. Auf der einen Seite: { $left }. Auf der anderen: { $right }. Kreuze zeigen die Enden, die zu stecken sind.
figure-join-points = { $count ->
    [one] Ein Punkt auf beiden Kanten zeigt den Passpunkt, { $places } vom { $end } Ende.
   *[other] Punkte auf beiden Kanten zeigen die Passpunkte, { $places } vom { $end } Ende.
}
figure-join-tips = { $count ->
    [one] Ein offener Punkt zeigt eine Spitze { $places } vom { $end } Ende.
   *[other] Offene Punkte zeigen Spitzen { $places } vom { $end } Ende.
}
figure-join-press = Ein Pfeil zeigt, dass die Nahtzugaben in Richtung { $side } gebügelt werden.
figure-join-press-open = Zwei Pfeile zeigen, dass die Nahtzugaben auseinandergebügelt werden.
figure-join-first = Die durchgezogene Linie wird jetzt genäht; die gestrichelte bleibt offen.
figure-join-rest = Die dünne Linie ist schon genäht, die fette ist der Rest.
figure-join-point = Ein Kreis zeigt den Punkt, über den kein Stich hinausgeht.
figure-order-ring-alt = Der Ring um { $centre } von vorn, auseinandergezogen. Um sie herum liegen { $members }. Eingekreiste Zahlen sagen die Reihenfolge: ein Teil der ersten Naht, die Nähte der anderen, der Rest der ersten.
figure-order-inset-alt = { $first }, { $second } und { $third } von vorn, auseinandergezogen. Eingekreiste Zahlen sagen die Reihenfolge: zuerst die Naht zwischen { $second } und { $third } bis zum Punkt, dann vom Punkt nach außen die von { $first } mit { $second }, dann die von { $first } mit { $third }.
figure-order-caption = Die Reihenfolge

primer-figure = Die Technik, Bild { $number }
primer-printed-side = bedruckte Seite
primer-plain-side = unbedruckte Seite
primer-allowance = Nahtzugabe
primer-sides-alt = Dasselbe Papier von beiden Seiten. Links seine bedruckte Seite mit drei nummerierten Abschnitten und der gestrichelten Schnittlinie darum; rechts seine unbedruckte Seite, durch die das Spiegelbild schwach zu sehen ist.
primer-first-alt = Die bedruckte Seite, Teil 1 unter dem Papier: Seine gestrichelte Kante reicht ringsum über Abschnitt 1 hinaus.
primer-fold-alt = Das Papier ist an Linie 2 zurückgefaltet, über eine Karte, die auf der Linie liegt. Von Teil 1, das über den Falz hinaussteht, ist alles bis auf eine Nahtzugabe an einer gestrichelten Linie abgeschnitten.
primer-lay-alt = Das Papier ist noch gefaltet. Das neue Teil liegt unter allem, die rechte Stoffseite oben, eine Kante genau auf der geschnittenen Kante von Teil 1; das meiste davon liegt unterhalb des Falzes.
primer-sew-alt = Das Papier liegt wieder flach, die bedruckte Seite oben. Stiche laufen auf Linie 2, von der Schnittlinie links, wo die Linie am Umriss endet, bis ein paar Stiche über ihr Ende rechts hinaus, im Innern der Einheit.
primer-look-alt = Das neue Teil ist aufgeklappt, und eine Lampe scheint durch das Papier: Die gestrichelte Kante des Teils liegt außerhalb von Abschnitt 2 und außerhalb der gepunkteten Linie, die ihn mit einer Nahtzugabe Abstand umgibt.
primer-trim-alt = Alle drei Teile sind angenäht. Ein Lineal liegt rechts an der Schnittlinie, und der Streifen aus Papier und Stoff dahinter ist abgeschnitten.
primer-paper-alt = Das Papier über Abschnitt 2 ist an den Stichen abgerissen und abgehoben; die linke Seite seines Stoffes ist zu sehen. Das Papier der Abschnitte 1 und 3 ist noch da.

# Ebenen des gedruckten Dokuments
layer-fabric = Stoffe
layer-seams = Nahtlinien
layer-cutting = Schnittlinien
layer-marks = Nummern und Kennzeichen
layer-check = Prüfen: Quadrat, 1 Zoll

# Was sich zwischen zwei Ausgaben geändert hat
change-title = { $same ->
    [yes] Was sich innerhalb der Ausgabe { $now } geändert hat
   *[no] Was sich von Ausgabe { $was } zu Ausgabe { $now } geändert hat
}
change-heading = { $consequence ->
    [print-again] Neu drucken
    [cut-again] Neu zuschneiden
    [buy] Mehr oder weniger kaufen
    [sew-differently] Anders nähen
   *[only-words] Nur Worte
}
change-same = { $count ->
    [one] Vorlage { $names } bleibt, wie sie ist.
   *[other] Die Vorlagen { $names } bleiben, wie sie sind.
}
change-in-block = { $what } im Block { $block }
change-added = { $name } ist neu; genäht wird sie { $count }-mal.
change-removed = { $name } wird nicht mehr genäht.
change-foundation = { $name }: { $what }
change-redrawn = Neu gezeichnet. { $sections } { $count ->
    [one] liegt
   *[other] liegen
} anders, { $distance }, am meisten { $most }.
change-redrawn-all = Neu gezeichnet. Alle Abschnitte liegen anders, { $distance }, am meisten { $most }.
change-redrawn-sections = Neu gezeichnet, mit { $now } { $now ->
    [one] Abschnitt
   *[other] Abschnitten
} statt { $was }; Linien sind { $distance } verschoben.
change-redrawn-edge = Anders zu beschneiden, { $distance }.
change-by = um bis zu { $distance }
change-by-less = um weniger als { $distance }
change-renumbered = Dieselben Flächen, in anderer Reihenfolge genäht: { $list }.
change-renumbered-one = { $now } war { $was }
change-recoloured = { $sections } { $count ->
    [one] ist
   *[other] sind
} { $now } statt { $was }.
change-renamed = Bisher hieß sie { $was }. { $taken ->
    [yes] Dieses Kennzeichen hat jetzt eine andere Vorlage.
   *[no] Gedruckte Vorlagen kannst du verwenden.
}
change-relabelled = Die Nähte sind wie bisher; anders sind { $what }. { $serves ->
    [yes] Gedruckte Vorlagen kannst du verwenden.
   *[no] Gedruckte Vorlagen würden in die Irre führen.
}
change-beside = { $beside ->
    [fabrics] die Nummern der Stoffe
    [ticks] die Striche, wo Punkte sich treffen
    [edges] die Kennzeichen an den Kanten, oder wo sie stehen
   *[other] Zeichen in den Abschnitten
}
change-counted = { $paper ->
    [yes] Drucke und nähe sie { $now ->
        [one] einmal
       *[other] { $now }-mal
    } statt { $was ->
        [one] einmal
       *[other] { $was }-mal
    }.
   *[no] Schneide sie { $now ->
        [one] einmal
       *[other] { $now }-mal
    } zu statt { $was ->
        [one] einmal
       *[other] { $was }-mal
    }.
}
change-strip = Streifen { $strip } von { $section }
change-section-was = { $now } (bisher { $was })
change-piece = { $size } aus { $fabric }
change-cut = { $sections }: { $pieces }, { $now }, statt { $was }.
change-pieces-of = { $pieces }, { $size }
change-pieces = { $sections ->
    [one] {""}
   *[other] je{" "}
}{ $count ->
    [one] ein Teil
   *[other] { $count } Teile
}
change-cut-already-for = { $already ->
    [short] Teile, die schon zugeschnitten sind, können zu klein sein: { $sections }.
   *[enough] Teile, die schon zugeschnitten sind, sind groß genug: { $sections }.
}
change-cut-count = { $sections }: { $now } Teile statt { $was }, { $size }.
change-cut-more = { $names }: Teile in ihren bisherigen Maßen, für { $now ->
    [one] eine
   *[other] { $now }
} statt { $was }.
change-cut-new = { $sections }: { $pieces }, { $now }; das ist neu.
change-cut-gone = { $sections }: { $was } wird nicht mehr zugeschnitten.
change-cut-all = { $names }: Schneide alle Teile { $count ->
    [one] dieser Vorlage
   *[other] dieser Vorlagen
} zu, wie es in der Zuschnittliste steht.
change-cut-none = { $names }: Für { $count ->
    [one] diese Vorlage
   *[other] diese Vorlagen
} wird nichts mehr zugeschnitten.
change-row-all = alle Teile, wie in der Zuschnittliste
change-row-already = { $already ->
    [short] kann zu klein sein
    [enough] groß genug
    [fabric] aus dem bisherigen Stoff
   *[unneeded] nicht mehr gebraucht
}
change-row-more = Maße wie bisher, für { $count }
change-row-times = für { $count }
change-row-pieces = { $count } { $count ->
    [one] Teil
   *[other] Teile
}
change-buy = { $fabric }: { $now }, statt { $was }{ $way ->
    [more] {" "}(mehr)
    [less] {" "}(weniger)
   *[other] {""}
}.
change-buy-new = { $fabric }: { $now }; bisher wurde davon nichts gekauft.
change-buy-none = { $fabric }: nichts, statt { $was }.
change-buy-colouring = In der Farbstellung „{ $colouring }“: { $what }
change-joined = { $join }: Diese Verbindungsnaht ist neu.
change-unjoined = { $join }: Diese Verbindungsnaht der bisherigen Ausgabe wird nicht mehr genäht.
change-reordered = { $joins }: { $count ->
    [one] Diese Verbindungsnaht wird
   *[other] Diese Verbindungsnähte werden
} zu einer anderen Zeit genäht als bisher.
change-pressed = { $join }: Bügle sie anders als bisher. { $how } Bisher: { $was }
change-met = { $join }: Was sich daran trifft, oder wie es einrastet, ist anders. Lies den Schritt in der Anleitung dieser Ausgabe.
change-placed = { $place } steht { $here } im Block, wo { $former } stand.
change-placed-turned = { $place }, { $here } im Block, liegt anders als bisher. Sieh im Plan der Einheiten dieser Ausgabe nach.
change-strips-pressed = { $section }: Die Nähte zwischen den Streifen werden anders gebügelt.
change-step = { $what }: Für diesen Schritt sagt die Gestalterin etwas anderes. Lies ihn in der Anleitung dieser Ausgabe.
change-plans = { $count ->
    [one] Der Plan der Streifen ist ein anderer bei { $fabrics }.
   *[other] Die Pläne der Streifen sind andere bei { $fabrics }.
}
change-said = { $about ->
    [title] Der Titel
    [edition] Die Ausgabe
    [date] Der Tag der Ausgabe
    [history] Die Geschichte der Ausgaben
    [author] Der Name der Herausgeberin
    [licence] Die Bedingungen
    [skill] Die Vorkenntnisse
    [contact] Der Kontakt
    [report] Wo Fehler gemeldet werden
    [about] Die Worte der Herausgeberin
    [tools] Das Werkzeug
    [note] { $several ->
        [yes] Der Hinweis zu { $of }
       *[no] Der Hinweis
    }
    [logo] Das Logo
    [photo] Das Foto
    [block] Der Name eines Blocks
    [unit] Der Name einer Einheit
    [finished] { $several ->
        [yes] Das fertige Maß von { $of }
       *[no] Das fertige Maß
    }
    [sizes] Die Größen
    [allowance] Die Nahtzugabe
    [ease] Der Spielraum beim groben Zuschnitt
    [fabric] Der Stoff { $of }
    [colouring] { $several ->
        [yes] Die Farbstellung { $of }
       *[no] Die Farbstellung
    }
    [people] Die Zahl der Personen
    [cutting] { $several ->
        [yes] Der Plan der Streifen von { $of }
       *[no] Der Stoff, aus dem zugeschnitten wird,
    }
    [language] Die Sprache
    [units] Die Maßeinheit
    [paper] Das Papier, und wie die Blätter gefüllt werden
    [join] Der Name einer Verbindungsnaht
    [proofs] Was über Vorlagen und Bügeln bewiesen ist
   *[unseen] Eine Länge, zu klein zum Drucken
}
change-said-instead = { $what }: „{ $now }“ statt „{ $was }“.
change-said-new = { $what }: „{ $now }“ ist neu.
change-said-gone = { $what }: „{ $was }“ entfällt.
change-said-other = { $what }: geändert.
change-already = { $case ->
    [new] { $names }: neu. Drucke und nähe, wie es in den Schritten steht.
    [gone] { $names }: { $count ->
        [one] Diese Vorlage und was danach genäht ist, wird
       *[other] Diese Vorlagen und was danach genäht ist, werden
    } nicht mehr gebraucht.
    [not] { $names }: Einheiten, die schon genäht sind, passen nicht mehr zu den anderen. Nähe sie noch einmal, nach der neuen Vorlage.
    [meets] { $names }: Einheiten, die schon genäht sind, passen noch, und treffen andere der bisherigen Ausgabe. Neben Einheiten nach { $count ->
        [one] der neuen Vorlage
       *[other] den neuen Vorlagen
    } treffen sich manche Punkte nicht: Mische nicht beide in einem Block.
    [fits] { $names }: Einheiten, die schon genäht sind, passen, wie sie sind; nur das Bild darin ist das bisherige.
    [renumbered] { $names }: Einheiten, die schon genäht sind, sind richtig. Die neuen Nummern gelten für die, die noch zu nähen sind.
    [recoloured] { $names }: Einheiten, die schon genäht sind, passen; sie zeigen die bisherigen Stoffe.
    [taken] { $names }: Was nach der bisherigen Vorlage gedruckt, zugeschnitten und genäht ist, ist richtig bis auf das Kennzeichen. Schreibe das neue auf Vorlagen, Einheiten und Zettel, damit sie nicht verwechselt werden.
    [fabrics] { $names }: Einheiten, die schon genäht sind, sind richtig. Die Nummern der Stoffe auf gedruckten Vorlagen sind die der bisherigen Ausgabe: Lege diese Vorlagen weg.
    [pressed] { $names }: Ist sie schon genäht und liegt noch frei, bügle sie neu. Wo eine spätere Naht sie hält, lass sie, wie sie ist.
    [placed] { $names }: Wo der Block schon verbunden ist, trenne ihn dort auf und setze { $count ->
        [one] diese Einheit
       *[other] diese Einheiten
    } ein.
   *[relabelled] { $names }: Vorlagen, die schon gedruckt sind, kannst du verwenden. Schreibe die neuen Worte und Kennzeichen darauf, wenn du magst.
}
change-picture-alt = Der Block { $block }, bisherige Linien gestrichelt unter den neuen. { $count ->
    [0] Keine Vorlage ist geändert.
    [one] Die Vorlage { $marks } ist geändert.
   *[other] Die Vorlagen { $marks } sind geändert.
}
change-pattern = { $case ->
    [same] nichts geändert
    [new] diese Anleitung ist neu
    [gone] diese Anleitung ist weggefallen
   *[broken] konnte nicht verglichen werden
}
change-none = { $count ->
    [0] Es gibt keine Anleitungen, die verglichen werden könnten.
    [one] In einer Anleitung ist nichts geändert.
   *[other] In { $count } Anleitungen ist nichts geändert.
}
change-none-named = Nichts geändert: { $names }
change-asked = Das verlangt Ausgabe { $needed } oder eine spätere, und in der Quelle steht { $edition }: { $wrong ->
    [yes] Vorlagen oder Zuschnitte, die stimmten, stimmen nicht mehr.
   *[no] Es gibt Änderungen, wenn auch keine, durch die Vorlagen oder Zuschnitte falsch werden.
}

# Die Berichtigung für alle, die die bisherige Ausgabe haben
correction-title = Berichtigung: Ausgabe { $edition }
correction-stamp = Berichtigung zu Ausgabe { $edition }
correction-intro = Das ist für alle, die { $title }, { $size }, in Ausgabe { $was } gedruckt haben. Ausgabe { $now } weicht davon in dem ab, was hier steht, und in nichts sonst. Auf jeder Vorlage steht die Ausgabe, in der sie zuletzt geändert wurde: Vorlagen, auf denen dieselbe Ausgabe steht wie auf deinen, brauchst du nicht neu zu drucken.
correction-nothing = Keine Vorlage ist neu zu drucken: Die du gedruckt hast, sind richtig.
correction-picture = Der Block { $block }
correction-picture-key = Getönte Flächen sind geändert. Feine Striche zeigen, wo Linien lagen; Ringe zeigen Ecken, die verschoben sind, mit einer Linie von ihrem bisherigen Ort.
correction-already = Was schon gedruckt, zugeschnitten oder genäht ist
correction-sections = Für
correction-now = Jetzt
correction-before = Bisher
correction-cut-already = Wenn schon zugeschnitten
correction-how = Wie gedruckt wird
correction-print = { $count ->
    [one] Ein Blatt folgt. Darauf ist nur, was neu zu drucken ist, und wie oft.
   *[other] { $count } Blätter folgen. Darauf ist nur, was neu zu drucken ist, und wie oft.
} Drucke mit 100{"\u00A0"}%, und miss vor dem Nähen das Quadrat und den Messbalken nach. { $some ->
    [yes] Lege die bisherigen { $names } weg, damit sie nicht unter die neuen geraten.
   *[no] {""}
}
correction-elsewhere = Was neu zu drucken ist, steht in wahrer Größe im PDF dieser Berichtigung.
correction-sheets = Geänderte Vorlagen
