# Was das Fenster sagt, auf Deutsch.

## Window

type-the-folder-of-the-book = Ordner des Belegbuchs in Schritt 5, Aufzeichnen, eintippen
type-the-photos-path-in-step = Pfad des Fotos in Schritt 1, Foto, eintippen
type-the-folder-in-step-5 = Ordner in Schritt 5, Aufzeichnen, unter „Ohne Dateidialog“ eintippen
no-file-dialog-appeared-on-this = Auf diesem System erschien kein Dateidialog. { $instead }
hide-the-findings = Befunde ausblenden
show-the-findings = Befunde zeigen
show-photo-as-taken = Foto wie aufgenommen
shows-the-photo-with-its-tilt = Zeigt das Foto wieder mit seiner Neigung; der Maßstab ist dann neu zu setzen
type-the-folder-of-photos-in = Ordner in Schritt 1, Foto, unter „Ein Ordner mit Fotos“ eintippen
nothing-opens-it = { $path } ließ sich nicht öffnen: { $error }. Von Hand in einem Browser öffnen

## Rail of steps

take-back = Rückgängig
do-again = Wiederherstellen
changes-of-scale-area-or-pores = { $meaning }: eine Änderung an Maßstab, Fläche oder Poren ({ $shortcut })
open-finder = Suchen…
type-what-you-want-to-do = Eintippen, was Sie tun möchten, und es tun ({ $keys })
keys = Tasten
all-shortcuts-f1-or = Alle Tastenkürzel (F1 oder ?)
open-preferences = Einstellungen…
text-size-colours-movement = Schriftgröße, Farben, Bewegung
words = Begriffe…
what-pore-wall-handbook-phrase-and = Was Pore, Wand, Handbuchangabe und andere Fachwörter bedeuten
step-in-full = Schritt { $number }, { $step }: { $standing }. { $sentence }

## Steps

next-step = Weiter: { $step }

## Step 1, Photo

taken-at = Aufgenommen { $when }
choose-photos-here = Fotos öffnen…
choose-one-photo-or-several = Ein Foto oder mehrere wählen ({ $shortcut })
answer-the-file-dialog-that-is = Zuerst den offenen Dateidialog beantworten
it-is-not-there-any-more-told = Es ist nicht mehr da: { $told }
not-there-any-more = Nicht mehr da
opening-name = { $name } wird geöffnet
or-type-its-path = Oder den Pfad eintippen
open = Öffnen
type-a-path-first = Zuerst einen Pfad eintippen
opening-path = { $path } wird geöffnet
measure-the-underside-of-a-bracket = Die Unterseite eines Porlings messen
take-the-photo-squarely-close-up = Das Foto gerade von vorn, nah und bei gleichmäßigem Licht aufnehmen, mit einem Lineal oder Maßstabsbalken in der Ebene der Poren.
three-ways-to-open-photos = Drei Wege, Fotos zu öffnen
choose-photos = Fotos wählen…
try-it-on-a-sample-photo = Mit einem Beispielfoto ausprobieren
opens-a-photo-and-leads-you = Öffnet ein Foto und führt in drei Minuten durch das Messen
photos-opened-before = Früher geöffnet
press-the-button-below = Den Knopf unten drücken ({ $shortcut }) oder links den Pfad eintippen.
drag-photos-from-a-folder-onto = Fotos aus einem Ordner auf dieses Fenster ziehen.
start-from-a-terminal-poreline-underside = Aus einem Terminal starten: poreline underside.jpg
a-folder-of-photos = Ein Ordner mit Fotos
every-photo-in-it-is-measured = Jedes Foto darin wird gemessen wie das offene: Ein Balken, eine Karte oder was die Datei sagt wird auf jedem neu gefunden, jeder andere Maßstab wie ein Aufbau übernommen.
folder-of-photos = Ordner mit Fotos
choose-the-folder = Wählen…
folder-for-the-results = Ordner für die Ergebnisse
its-area-on-each-photo = Diese Fläche auf jedem Foto
at-the-same-place-on-each = Der Umriss des offenen Fotos, auf jedem an derselben Stelle; sonst wird alles Brauchbare gemessen
with-a-table-of-all-pores = Mit einer Tabelle aller Poren
with-pictures-with-outlines = Mit Bildern mit Umrissen
voucher-in-the-photos-name = Beleg im Namen des Fotos
such-as-voucher-star = etwa {"{"}voucher{"}"}_*
photos-of-one-voucher-are-pooled = {"{"}voucher{"}"} steht für die Belegnummer, * für alles andere. Fotos eines Belegs werden zu einem Wert zusammengefasst
attach-to-the-open-book = An die Belege des offenen Belegbuchs heften
photos-are-copied-into-the-book = Die Fotos werden ins Belegbuch kopiert. Belege, die es nicht hat, werden genannt, nicht hinzugefügt
measure-the-folder = Ordner messen
what-was-measured-is-kept-start = Was gemessen wurde, bleibt. Neu begonnen geht es dort weiter
go-on-working-meanwhile-closing-the = Sie können weiterarbeiten. Das Schließen des Fensters hält es an; neu begonnen geht es dort weiter.
open-the-contact-sheet = Übersichtsblatt öffnen
the-results-lie-in = Alle Ergebnisse liegen in { $folder }
a-folder-is-being-measured = Ein Ordner wird gemessen
open-one-of-its-photos-first = Zuerst eines seiner Fotos öffnen
type-the-folder-of-photos-first = Zuerst den Ordner mit Fotos eintippen
say-where-the-voucher-stands = Sagen, wo der Beleg im Namen des Fotos steht
the-folder-was-not-begun = Der Ordner wurde nicht begonnen ({ $error }); andere Programme schließen und noch einmal versuchen
the-folder-was-stopped = Der Ordner wurde angehalten. Was gemessen wurde, bleibt; neu begonnen geht es dort weiter
folder-files-done = { $done } von { $files } Dateien
folder-pace =
    , { $rate } je Minute, { $minutes ->
        [0] noch weniger als eine Minute
        [one] noch etwa eine Minute
       *[other] noch etwa { $minutes } Minuten
    }
folder-failed = , { $count } nicht gemessen
folder-measured =
    { $count ->
        [one] 1 Foto
       *[other] { $count } Fotos
    } des Ordners gemessen, { $failed } nicht{ $others ->
        [0] {"."}
        [one] ; eine weitere Datei ist kein Foto.
       *[other] ; { $others } weitere Dateien sind keine Fotos.
    }
folder-attached = { $count } an Belege geheftet, { $before } waren schon da.
folder-without-vouchers = Das Belegbuch hat keinen Beleg { $numbers }.

## Step 2, Scale

corners-were-set-on-a-small-picture = Die Ecken wurden auf einem kleinen Bild gesetzt: für einen sichereren Maßstab hineinzoomen und sie verschieben.
pixels-per-millimetre = Pixel je Millimeter
such-as-85-2-px = etwa 85,2
stop = Anhalten
plus-minus-is-the-standard-uncertainty-each = ± ist die Standardunsicherheit: Jedes Ende sitzt auf ein Pixel von Foto oder Bildschirm genau, in einer Raute auf ein halbes. Eine längere Linie macht sie kleiner.
taken-as-exact = Gilt als genau.
a-longer-line-makes-it-smaller = Eine längere Linie macht sie kleiner.
plus-minus-is-the-standard-uncertainty = ± ist die Standardunsicherheit.
zoom-in-with-the-wheel-and = Mit dem Rad hineinzoomen und beide Enden anklicken; sie lassen sich danach verschieben. Mit der Tastatur: P, Pfeiltasten, Eingabe.
put-ends-on-edges = Enden auf Kanten setzen
an-end-goes-to-the-middle = Ein Ende geht zur Mitte der nächsten Kante innerhalb von 8 Bildschirmpixeln. Mit gedrückter Alt-Taste bleibt es, wohin Sie zeigen
length-between-the-ends = Länge zwischen den Enden
such-as-5-mm = etwa 5 mm
set-the-ends-again = Enden neu setzen
a-pixel-of-the-screen-covers = Ein Bildschirmpixel deckt { $px } px des Fotos: für einen sichereren Maßstab hineinzoomen.
ends-were-set-on-a-small-picture = Die Enden wurden auf einem kleinen Bild gesetzt: für einen sichereren Maßstab hineinzoomen und sie verschieben.
find-the-scale-bar = Maßstabsbalken finden
several-strokes-could-be-the-scale = Mehrere Striche könnten der Maßstabsbalken sein. Den richtigen hier oder auf dem Foto wählen.
length-of-the-scale-bar = Länge des Maßstabsbalkens
such-as-2-mm = etwa 2 mm
drag-on-the-photo-along-the = Auf dem Foto die Kante entlangziehen, auf der die Teilstriche stehen, soweit sie scharf sind. Mit der Tastatur: P, Pfeiltasten, Eingabe an jedem Ende.
from-tick-to-tick = Von Teilstrich zu Teilstrich
read-the-ruler = Lineal ablesen
drag-again-for-another-line-or = Für eine andere Linie neu ziehen oder die Enden verschieben.
the-card-has-to-lie-on = Die Karte muss auf der Oberfläche liegen, mit mindestens drei ihrer Eckmarken im Bild.
find-the-scale-card = Maßstabskarte finden
click-the-four-corners-one-after = Die vier Ecken nacheinander im Umlauf anklicken, zuerst die Breite entlang. Mit der Tastatur: P, Pfeiltasten, Eingabe.
width-of-the-rectangle = Breite
such-as-30-mm = etwa 30 mm
height-of-the-rectangle = Höhe
such-as-20-mm = etwa 20 mm
set-the-corners-again = Ecken neu setzen
straighten-the-photo = Foto entzerren
no-set-up-has-been-saved = Es ist noch kein Aufbau gespeichert. Den Maßstab eines Fotos auf andere Weise setzen und dann als Aufbau speichern.
pick-the-one-that-this-photo = Den wählen, mit dem dieses Foto aufgenommen wurde.
save-this-scale-as-a-set = Diesen Maßstab als Aufbau speichern
for-other-photos-by-this-camera = Für andere Fotos dieser Kamera aus diesem Abstand, mit demselben Zoom.
name-of-the-set-up = Name des Aufbaus
such-as-stand = etwa Stativ
save-set-up = Aufbau speichern
white-reference-for-colour = Weißreferenz für die Farbe
mark-something-white = Etwas Weißes markieren
then-drag-a-rectangle-over-paper = Dann ein Rechteck über Papier oder etwas anderes Weißes ziehen, das im selben Licht liegt wie die Oberfläche
remove-the-white = Weiß entfernen
drag-a-rectangle-over-something-white-in = Ein Rechteck über etwas Weißes im selben Licht wie die Oberfläche ziehen. Mit der Tastatur: Pfeiltasten, Eingabe an jeder Ecke.

## Step 3, Area

nothing-without-a-photo = Zuerst ein Foto öffnen.
draw-with = Zeichnen mit
rectangle = Rechteck
drag-from-corner-to-corner-or = Von Ecke zu Ecke ziehen oder zwei gegenüberliegende Ecken anklicken
outline = Umriss
click-corner-by-corner-enter-a = Ecke für Ecke anklicken; Eingabe, ein Doppelklick oder ein Klick auf die erste Ecke schließt ihn
freehand = Freihand
drag-once-around-the-part-to = Einmal um den zu messenden Teil ziehen; seine Ecken lassen sich danach verschieben
leave-out-a-part = Teil aussparen
drag-a-rectangle-over-a-part = Ein Rechteck über einen Teil ziehen, der nicht gemessen werden soll, oder ihn umklicken: Schaden, Schmutz, ein Lineal
drag-a-rectangle-over-pores-that = Ein Rechteck über Poren ziehen, die scharf und gerade von vorn zu sehen sind.
click-around-pores-that-are-sharp = Um Poren klicken, die scharf und gerade von vorn zu sehen sind.
drag-around-pores-that-are-sharp = Um Poren ziehen, die scharf und gerade von vorn zu sehen sind.
drag-a-rectangle-over-what-is = Ein Rechteck über das ziehen, was nicht gemessen werden soll, oder es umklicken.
by-keyboard-p-arrow-keys-enter = Mit der Tastatur: P, Pfeiltasten, Eingabe an jeder Ecke.
whole-photo = Ganzes Foto
measure-all-of-the-photo-but = Alles auf dem Foto messen außer dem Ausgesparten
clear-outline = Umriss löschen
take-the-outline-away-parts-that = Den Umriss wegnehmen; ausgesparte Teile bleiben
clear-left-out-parts = Ausgespartes löschen
leave-nothing-out-the-outline-stays = Nichts aussparen; der Umriss bleibt
hardly-any-of-this-photo-can = Von diesem Foto lässt sich kaum etwas messen. Neu aufnehmen oder eine Fläche zeichnen, wo die Poren scharf sind.
found-unusable-and-left-out-hatched = Als unbrauchbar gefunden und ausgespart, auf dem Foto schraffiert. Den Haken wegnehmen, wo trotzdem gemessen werden soll.
ticked-left-out-not-ticked-measured = Mit Haken: ausgespart. Ohne Haken: gemessen wie der Rest

## Step 4, Pores

corrections-by-hand =
    { $count ->
        [one] 1 Korrektur von Hand
       *[other] { $count } Korrekturen von Hand
    }
select = Auswählen
click-a-pore-to-see-its = Eine Pore anklicken, um ihre Werte zu sehen und an ihr zu arbeiten; mit Strg eine weitere
add = Hinzufügen
click-a-hollow-that-was-not-seen = Einen Hohlraum anklicken, der nicht gesehen wurde: Was um diese Stelle dunkel ist, wird eine Pore
draw = Zeichnen
drag-once-around-a-pore-or-click = Einmal um eine Pore ziehen oder ihren Umriss Ecke für Ecke anklicken
split = Teilen
drag-a-stroke-right-across-a-pore = Einen Strich quer durch eine Pore ziehen, die zwei sind
take-away = Löschen
join = Verbinden
drag-from-one-pore-to-a = Von einer Pore zu einer Nachbarin ziehen, die zu ihr gehört
click-what-was-taken-for-a = Anklicken, was für eine Pore gehalten wurde und keine ist
starting = Beginn
no-area-is-drawn-the-whole-photo = Keine Fläche gezeichnet: Das ganze Foto wird gemessen, auch der Hintergrund.
no-area-is-drawn-the-whole = Keine Fläche gezeichnet: Das ganze Foto wird gemessen, auch Karte und Hintergrund.
measure-again = Neu messen
measure = Messen
find-and-measure-the-pores-in = Die Poren in der Fläche finden und messen ({ $shortcut })
correct-by-hand = Von Hand korrigieren
by-keyboard-p-arrow-keys-enter-at = Mit der Tastatur: P, Pfeiltasten, Eingabe an jeder Stelle.
working-the-corrections-in = Korrekturen werden eingearbeitet …
walls-that-part-pores = Wände, die Poren trennen
left-faint-walls-part-pores-too = Links: Auch schwache Wände trennen Poren. Rechts: nur hohe Wände
usual = Üblich
take-walls-as-usual-accuracy-was = Wände wie üblich nehmen; nur dafür wurde die Genauigkeit nachgewiesen
as-usual = Wie üblich
walls-from-a-height-on = Ab dem { $multiple }-Fachen der üblichen Höhe
pores-selected = { $count } ausgewählt
delete-selected = Auswahl löschen
there-is-no-pore-here-delete = Hier ist keine Pore (Entf)
join-selected = Auswahl verbinden
these-are-one-pore = Dies ist eine einzige Pore
take-away-correction = Korrektur { $number } wegnehmen
take-this-correction-away = Diese Korrektur wegnehmen
nothing-there-to-act-on = { $correction }: dort ist nichts, worauf sie wirkt
take-all-away = Alle wegnehmen
pores-as-they-were-found-undo = Poren, wie sie gefunden wurden; Rückgängig bringt die Korrekturen zurück
counted = gezählt
not-counted-at-the-edge-or = nicht gezählt: am Rand oder keine Pore

## Step 5, Record

files-of-the-book = Dateien des Belegbuchs
files-of-the-findings = Dateien der Befunde
another-book = Ein anderes Belegbuch
voucher-book = Belegbuch
a-book-is-a-folder-of = Ein Belegbuch ist ein Ordner mit Belegen, den Sie kopieren und weitergeben können. Befunde, die an einen Beleg geheftet sind, bleiben bei ihm.
read-this-book-anew = Belegbuch neu lesen
shows-what-others-have-changed-in = Zeigt, was andere seither darin geändert haben
new-voucher = Neuer Beleg
pick-a-voucher = Beleg wählen
no-voucher-is-picked-sentence = Es ist kein Beleg gewählt.
new = , neu
attach-these-findings = Befunde anheften
keeps-all-figures-scale-and-area = Bewahrt alle Werte, Maßstab und Fläche beim Beleg auf und speichert ihn
copy-the-photo-into-the-book = Das Foto ins Belegbuch kopieren
otherwise-the-book-only-tells-where = Sonst sagt das Belegbuch nur, wo das Foto liegt
measured-by = Gemessen von
your-name = Ihr Name
compare-with-published-ranges = Mit veröffentlichten Angaben vergleichen
which-published-figures-the-findings-agree = Mit welchen veröffentlichten Werten die Befunde übereinstimmen und gegen welche sie sprechen
measure-or-pick-a-voucher = Messen oder einen Beleg wählen
open-a-book = Belegbuch öffnen…
open-the-demo-book = Beispielbuch öffnen
an-invented-book-in-a-folder = Ein erfundenes Belegbuch in einem eigenen Ordner, um all dies auszuprobieren
or-type-its-folder = Oder seinen Ordner eintippen
open-this-book = Dieses Belegbuch öffnen
type-a-folder-first = Zuerst einen Ordner eintippen
make-a-new-book = Neues Belegbuch anlegen
name-of-the-book = Name des Belegbuchs
such-as-alder-fen-foray-group = etwa Pilzgruppe Erlenbruch
folder-to-make-it-in = Ordner, in dem es liegen soll
catalogue-numbers = Belegnummern
year-stands-for-the-year-of = {"{"}year{"}"} steht für das Jahr des Funds, {"{"}number:4{"}"} zählt vierstellig hoch.
make-the-book = Belegbuch anlegen
fill-in-name-folder-and-numbers = Zuerst Name, Ordner und Nummern ausfüllen

## Saving files

save-findings-json = Befunde speichern (JSON)…
all-figures-with-intervals-notes-and = Alle Werte mit Intervallen, Hinweisen und Einstellungen, für Skripte und als Nachweis
save-pores-csv = Poren speichern (CSV)…
one-line-per-pore-with-its = Eine Zeile je Pore mit ihrem Ort und ihren Maßen, für eine Tabelle
save-overlay-png = Umrisse speichern (PNG)…
a-copy-of-the-photo-with = Eine Kopie des Fotos mit den eingezeichneten Umrissen: der Nachweis zum Vorzeigen
save-corrections-json = Korrekturen speichern (JSON)…
what-was-corrected-by-hand-for = Was von Hand korrigiert wurde, damit `poreline measure --corrections` es wieder korrigiert
save-report-pdf = Bericht (PDF)…
on-the-voucher-that-is-picked = Zum gewählten Beleg: Fotos mit dem Gezählten, Werte, veröffentlichte Angaben und Aufzeichnung, zum Drucken oder Verschicken
save-report-html = Bericht (HTML)…
the-same-as-one-page-for = Dasselbe als eine Seite für den Browser
save-labels-pdf = Etiketten (PDF)…
one-label-for-each-voucher-in = Ein Etikett für jeden Beleg der Liste, zum Drucken und Ausschneiden
save-table-csv = Tabelle (CSV)…
one-line-per-voucher-for-a = Eine Zeile je Beleg, für eine Tabelle
save-darwin-core-zip = Darwin Core (ZIP)…
a-darwin-core-archive-of-all = Ein Darwin-Core-Archiv aller Belege mit ihren Messungen, für eine Sammlung oder ein Portal
walks-and-checklists-csv = Exkursionen und Artenlisten (CSV)…
one-line-per-sighting-for-a = Eine Zeile je Beobachtung, für eine Tabelle
charts-by-month-pdf = Diagramme nach Monaten (PDF)…
on-which-share-of-each-months = Auf welchem Anteil der Exkursionen jedes Monats jedes Taxon angetroffen wurde
findings-json = Befunde (JSON)
pores-csv = Poren (CSV)
overlay-png = Umrisse (PNG)
corrections-json = Korrekturen (JSON)
pick-a-voucher-first = Zuerst einen Beleg wählen
places-in-these-files = Orte in diesen Dateien
without-a-file-dialog = Ohne Dateidialog
report-pdf = Bericht (PDF)
report-html = Bericht (HTML)
labels-pdf = Etiketten (PDF)
table-csv = Tabelle (CSV)
darwin-core-zip = Darwin Core (ZIP)
walks-csv = Exkursionen (CSV)
months-pdf = Monate (PDF)
as-recorded = wie aufgezeichnet
only-to-a-cell-of-0 = nur auf eine Zelle von 0,1°
the-country-only = nur das Land
folder-to-save-in = Ordner zum Speichern
save-into-this-folder-asks-before = In diesen Ordner speichern; fragt, bevor eine Datei ersetzt wird

## The photo

photo-straightened = { $name }, entzerrt
photo-with-outlines = Foto { $name }, { $count } umrissen
photo-so-named = Foto { $name }
a-place-is-framed = { $photo }; eine Stelle ist umrahmt

## Under the photo

show-outlines = Umrisse zeigen
outlines-of-what-was-found-solid = Umrisse des Gefundenen: durchgezogen, wo gezählt, gestrichelt, wo nicht
turned-by = , um { $degrees }° gedreht
zoom-out = Verkleinern
zoom-in = Vergrößern
fit = Einpassen
show-all-of-the-photo = Das ganze Foto zeigen
one-photo-pixel-per-screen-pixel = Ein Fotopixel je Bildschirmpixel

## Looks of the photo

view = Ansicht
turn-the-photo-or-show-it = Das Foto drehen oder heller zeigen. Was gemessen wird, bleibt gleich
for-looking-only-what-is-measured = Nur zum Ansehen: Was gemessen wird, bleibt gleich.
loupe = Lupe
enlarges-the-place-where-an-end = Vergrößert die Stelle, an der ein Ende oder eine Ecke gesetzt wird (L)
scale-bar = Maßstabsbalken
a-bar-of-a-round-length = Ein Balken von runder Länge in der Ecke, sobald es einen Maßstab gibt
brightness = Helligkeit
contrast = Kontrast
half-without = Zur Hälfte ohne
shows-the-photo-without-outlines-left = Zeigt das Foto links einer verschiebbaren Linie ohne Umrisse (W)
show-the-outlines-first = Zuerst die Umrisse zeigen
brightness-changed-for-looking-only = Helligkeit nur zum Ansehen geändert
reset-brightness = Helligkeit zurücksetzen
shows-the-photos-own-brightness-and = Zeigt Helligkeit und Kontrast des Fotos selbst
turn-left = Nach links drehen
a-quarter-turn-against-the-clock = Eine Vierteldrehung gegen den Uhrzeigersinn (Umschalt+R)
turn-right = Nach rechts drehen
a-quarter-turn-with-the-clock = Eine Vierteldrehung im Uhrzeigersinn (R)
upright = Aufrecht
shows-the-photo-as-it-lies = Zeigt das Foto, wie es in seiner Datei liegt
turn = Drehung
turns-the-photo-on-the-screen = Dreht das Foto auf dem Bildschirm; die Datei bleibt, wie sie ist

## What to do on the photo

wheel-zooms-dragging-moves-the-photo = Das Rad zoomt, Ziehen bewegt das Foto
click-one-end-of-the-ruler = Ein Ende des Lineals oder Balkens anklicken; Alt hält von Kanten fern. Ziehen bewegt das Foto
click-the-other-end-alt-keeps = Das andere Ende anklicken; Alt hält von Kanten fern. Ziehen bewegt das Foto
click-the-stroke-that-is-the = Den Strich anklicken, der der Maßstabsbalken ist
click-where-the-line-ends-esc = Anklicken, wo die Linie endet. Esc bricht ab
drag-along-the-edge-that-the = Die Kante entlangziehen, auf der die Teilstriche des Lineals stehen
click-a-corner-of-the-rectangle = Eine Ecke des Rechtecks anklicken. Ziehen bewegt das Foto
click-the-next-corner-going-round = Die nächste Ecke im Umlauf anklicken. Ziehen bewegt das Foto
click-the-opposite-corner-esc-cancels = Die gegenüberliegende Ecke anklicken. Esc bricht ab
drag-a-rectangle-over-something-white = Ein Rechteck über etwas Weißes ziehen. Esc bricht ab
drag-from-corner-to-corner = Von Ecke zu Ecke ziehen
click-the-first-corner = Die erste Ecke anklicken
drag-once-around-what-is-to = Einmal um das ziehen, was gemessen werden soll
drag-a-rectangle-or-click-corner = Ein Rechteck ziehen oder Ecke für Ecke anklicken
click-a-pore-to-select-it = Eine Pore anklicken, um sie auszuwählen, mit Strg eine weitere. Ziehen bewegt das Foto
click-a-hollow-that-was-not = Einen Hohlraum anklicken, der nicht gesehen wurde. Ziehen bewegt das Foto
click-what-is-no-pore-dragging = Anklicken, was keine Pore ist. Ziehen bewegt das Foto
click-the-pore-to-join-it = Die Pore anklicken, mit der sie zu verbinden ist. Esc bricht ab
drag-from-one-pore-to-its = Von einer Pore zu ihrer Nachbarin ziehen oder beide anklicken
click-where-the-stroke-ends-esc = Anklicken, wo der Strich endet. Esc bricht ab
drag-a-stroke-right-across-a = Einen Strich quer durch eine Pore ziehen oder seine beiden Enden anklicken
click-corners-enter-closes-esc-cancels = Ecken anklicken. Eingabe schließt, Esc bricht ab
drag-once-around-a-pore-or = Einmal um eine Pore ziehen oder Ecke für Ecke anklicken

## Handles on the photo

scale-line-first-end = Maßstabslinie, erstes Ende
scale-line-second-end = Maßstabslinie, zweites Ende
line-along-the-ruler-first-end = Linie am Lineal, erstes Ende
line-along-the-ruler-second-end = Linie am Lineal, zweites Ende
corner-of-the-rectangle = Rechteck, Ecke { $number }
corner-of-the-area = Fläche, Ecke { $number }
corner-of-a-left-out-part = Ausgesparter Teil { $part }, Ecke { $number }
drag-it-with-alt-freely-or = Ziehen, mit Alt frei, oder mit den Pfeiltasten um 1 px verschieben, mit Umschalt um 0,1 px. Eingabe setzt es auf die nächste Kante
drag-it-or-move-it-with-the = Ziehen oder mit den Pfeiltasten um 1 px verschieben, mit Umschalt um 0,1 px. Entf oder ein Rechtsklick nimmt sie weg, Einfg fügt danach eine hinzu
drag-it-or-move-it-with = Ziehen oder mit den Pfeiltasten um 1 px verschieben, mit Umschalt um 0,1 px

## Corners

click-to-add-a-corner-here = Klicken, um hier eine Ecke hinzuzufügen, oder sie dorthin ziehen, wo sie sein soll

## Divider

left-of-it-the-photo-without = Links davon das Foto ohne Umrisse. Ziehen oder mit den Pfeiltasten verschieben
divider-per-cent-of-the-width = Trennlinie, Prozent der Breite

## Colouring of outlines

counted-or-not = Gezählt oder nicht
colour-by = Färben nach
what-the-colours-mean = { $measure }: Dunkelblau heißt { $low } oder weniger, Hellgelb { $high } oder mehr. Neun Zehntel der Poren liegen dazwischen

## Marks of the scale

white = weiß
side-width = Breite
side-height = Höhe

## Scale bar on the screen

scale-bar-of = Maßstabsbalken von { $length }
how-long-this-bar-is = Dieser Balken ist auf dem Pilz { $length } lang

## Findings

a-measurement-agrees-with-or-speaks = Eine Messung stimmt mit veröffentlichten Werten überein oder spricht gegen sie; sie benennt keine Art. Auf ihrer Grundlage niemals essen oder dosieren; Fachleute fragen.
findings = Befunde
measuring-the-findings-will-stand-here = Es wird gemessen. Die Befunde erscheinen hier.
once-the-photo-is-measured-this = Sobald das Foto gemessen ist, steht hier, welche Art von Oberfläche es ist, wie viele Poren auf einen Millimeter kommen, wie weit sie sind, wie sicher jeder Wert ist und worauf zu achten ist.
surface-and-sureness = { $surface }, { $sureness }
how-sure-the-kind-of-surface = Wie sicher die Art der Oberfläche ist, von 0 bis 1; die Gründe stehen darunter.
the-figures-are-withheld-the-notes = Die Werte werden zurückgehalten; die Hinweise sagen, warum
no-count-on-this-kind-of = Auf dieser Art von Oberfläche wird nicht gezählt
why-this-kind = Gründe für „{ $kind }“
figures = Werte
copy-as-text = Als Text kopieren
copies-all-findings-in-words = Kopiert alle Befunde in Worten
copy-as-table = Als Tabelle kopieren
copies-the-figures-to-be-pasted = Kopiert die Werte zum Einfügen in eine Tabelle
what-the-uncertainty-is-made-of = Woraus die Unsicherheit besteht
copy = Kopieren
copies-the-phrase = Kopiert die Angabe
copy-the-phrase = Die Angabe kopieren
within-interval = 95-%-Intervall { $interval }
what-do-these-mean = Was bedeutet das?
parts-of-the-uncertainty-of = Teile der Unsicherheit von { $figure }: { $parts }
withheld = Zurückgehalten
caution = Vorsicht
good-to-know = Gut zu wissen
show-me = Zeigen
shows-on-the-photo-where-this = Zeigt auf dem Foto, wo das am besten zu sehen ist

## Charts

measure-of-pores = { $measure } der Poren
which-way-pores-are-drawn-out = Wohin Poren gestreckt sind
too-round-to-point-anywhere = { $count } weitere sind zu rund, um irgendwohin zu weisen
pores-along-lines-of-1-mm = Poren entlang Linien von 1 mm
press-a-bar-to-select-its = Einen Balken drücken, um seine Poren auf dem Foto auszuwählen, mit Strg zusätzlich. Mit der Tastatur: Pfeiltasten, Eingabe.
table-of-pores = Tabelle der Poren
histogram-of = Histogramm: { $measure }
pores-on-lines = { $pores } Poren auf { $lines }
all-lines-of-1-mm = Von { $all } Linien von 1 mm: { $counts }
histogram-class-in-full = { $histogram }: { $count } Poren von { $class }
histogram-class = { $count } Poren von { $class }
rose-of-directions = Richtungsrose
sorts-by-this = Sortiert danach
pore-in-the-table = Pore { $number }, Durchmesser { $diameter }, Streckung { $elongation }
hollows = Hohlräume
walls = Wände
network-in-words = { $network } Das größte Stück von beiden ist dunkel.
network-picture = { $phase } eines Stücks der Oberfläche. { $network }

## Strip of photos

dragged-to-a-voucher = { $photo } zu einem Beleg des Belegbuchs
photo-of-the-strip =
    { $path }
    { $standing }{ $told }
    Klicken, um daran zu arbeiten. Auf einen Beleg im Belegbuch ziehen, um die Befunde anzuheften. Entf nimmt es aus dem Streifen; die Datei bleibt
not-saved = nicht gespeichert
scale-for-all = Maßstab für alle
gives-this-photos-scale-to-all = Gibt den Maßstab dieses Fotos allen anderen Fotos, wie ein Aufbau es täte
area-for-all = Fläche für alle
gives-the-outline-of-this-photos = Gibt den Umriss der Fläche dieses Fotos allen anderen Fotos

## Views of the last step

photo = Foto
voucher = Beleg
published-ranges = Veröffentlichte Angaben
book = Belegbuch
walks = Exkursionen

## List of vouchers

no-book-is-open = Es ist kein Belegbuch offen
open-one-on-the-left-or = Links eines öffnen oder ein neues anlegen.
find-in-the-book = Suchen
number-name-place-person = Nummer, Name, Ort, Person
vouchers-shown = { $shown } von { $all } Belegen
check-the-book = Belegbuch prüfen
looks-for-dates-and-places-that = Sucht nach Daten und Orten, die nicht sein können, nach veränderten Fotos und doppelt vergebenen Nummern
double-click-or-enter-on-a = Doppelklick oder Eingabe auf einer Zeile öffnet ihr Foto wieder mit seinen Befunden.
things-to-look-at =
    { $count ->
        [0] Im Belegbuch ist nichts falsch
        [one] Eine Sache zum Ansehen
       *[other] { $count } Sachen zum Ansehen
    }
hide = Ausblenden
fill-in-this-voucher = Diesen Beleg ausfüllen
fill-in = Ausfüllen
shows-the-voucher-that-is-picked = Zeigt den gewählten Beleg
open-its-photo = Sein Foto öffnen
no-photo-of-it-was-measured = Kein Foto davon wurde gemessen
rising = , aufsteigend
falling = , absteigend
sort-by-column = Nach { $column } sortieren{ $order }
the-book-has-no-voucher-yet = Das Belegbuch hat noch keinen Beleg. Links Neuer Beleg drücken.
no-voucher-holds-all-of-these = Kein Beleg enthält all diese Wörter.

## Voucher

no-voucher-is-picked = Es ist kein Beleg gewählt
pick-one-in-the-book-or = Einen im Belegbuch wählen oder links Neuer Beleg drücken.
found = Gefunden
specimen = Exemplar
name-and-notes = Name und Notizen
more-about-the-specimen = Mehr über das Exemplar
new-not-saved-yet = neu, noch nicht gespeichert
changed-not-saved-yet = geändert, noch nicht gespeichert
saved = gespeichert
save-voucher = Beleg speichern
drop-changes = Verwerfen
from-the-photos-file = aus der Datei des Fotos
take-date-and-place-from-the = Datum und Ort vom Foto nehmen
fills-in-what-the-photos-file = Füllt ein, was die Datei des Fotos sagt, wo noch nichts steht
no-photo-is-open = Es ist kein Foto offen
blur-the-place-to-0-1 = Ort auf 0,1° vergröbern
for-rare-finds-tells-only-in = Für seltene Funde: sagt nur, in welcher Zelle von 0,1° mal 0,1° gefunden wurde, etwa 11 km von Süd nach Nord
there-are-no-coordinates = Es gibt keine Koordinaten
coordinates-are-those-of-phones-and = Koordinaten sind die von Telefonen und GPS-Empfängern (WGS 84). Sie gehen überallhin mit, wohin das Belegbuch geht.
photos-and-measurements = Fotos und Messungen
pooled-together = Zusammen { $pooled }
none-yet-attach-these-findings-on = Noch keine. Befunde anheften, links, fügt das offene Foto hinzu.
names-it-had-before = Frühere Namen
name-before-that = davor { $names }
open-photo-again = { $photo } wieder öffnen
opens-the-photo-with-its-scale = Öffnet das Foto mit seinem Maßstab und seiner Fläche und misst es wieder
its-findings-do-not-tell-scale = Seine Befunde sagen Maßstab und Fläche nicht
take-photo-off = { $photo } lösen
takes-the-photo-and-what-was = Löst das Foto und das daran Gemessene von diesem Beleg, sobald Sie ihn speichern. Das Foto selbst bleibt

## Published ranges

nothing-to-compare-yet = Noch nichts zu vergleichen
measure-a-photo-or-pick-a = Ein Foto messen oder einen Beleg wählen, der Befunde, Wirtsholz, Farbe oder Hutbreite hat. Dann links Mit veröffentlichten Angaben vergleichen drücken.
what-agrees-with-it-and-what = Was damit übereinstimmt und was dagegen spricht
more-taxa-agree-in-less = { $count } weitere Taxa der Tabelle stimmen in weniger überein oder haben mehr gegen sich.
several-taxa-can-agree = { $cautions } Mehrere Taxa können mit allem Gesehenen übereinstimmen, und keines davon muss richtig sein: Die Tabelle ist alles andere als vollständig, und was ihr fehlt, kann nicht übereinstimmen.
to-tell-two-apart = Um { $first } und { $second } auseinanderzuhalten, als Nächstes ansehen
the-table-says-the-same-of = Die Tabelle sagt von beiden dasselbe; Fachleute fragen.
character-as-seen = { $character }: gesehen { $seen }
as-printed = gedruckt { $range }

## Walks

the-book-is-being-read-or = Das Belegbuch wird gelesen oder geschrieben
a-new-walk = Neue Exkursion
date-of-the-walk = Datum der Exkursion
such-as-2026-10-04 = etwa 2026-10-04
place-of-the-walk = Ort der Exkursion
in-words = in Worten
how-many-walked = Wie viele mitgingen
such-as-7 = etwa 7
add-the-walk = Exkursion hinzufügen
walks-of-the-book =
    { $count ->
        [0] Noch keine Exkursion
        [one] Eine Exkursion
       *[other] { $count } Exkursionen
    }
people-on-the-walk = , { $count } Personen
sightings-on-the-walk =
    { $count ->
        [0] nichts gesehen
        [one] 1 Beobachtung
       *[other] { $count } Beobachtungen
    }
seen-on-walk = Gesehen auf { $walk }
nothing-yet = Noch nichts.
kept-as-voucher = Beleg { $number }
also-seen = Auch gesehen
such-as-stereum-hirsutum = etwa Stereum hirsutum
voucher-of-it = Beleg dafür
its-number = seine Nummer
add-to-the-checklist = Zur Artenliste hinzufügen
how-often-each-taxon-was-met = Wie oft jedes Taxon angetroffen wurde
share-of-all-walks-with-wilsons = Anteil an allen Exkursionen mit Wilsons 95-%-Intervall, und nach Monaten die Exkursionen, auf denen es angetroffen wurde, von den unternommenen.
taxon = Taxon
share-of-walks = Anteil der Exkursionen
column-first-to-last = Erste bis letzte
walks-met-of-all = { $met } von { $all }
first-to-last-date = { $first } bis { $last }

## Sheets over the window

a-file-of-that-name-is = Eine Datei dieses Namens gibt es schon
a-set-up-of-that-name = Einen Aufbau dieses Namens gibt es schon
photos-measured-by-the-old-one = Fotos, die mit dem alten gemessen wurden, behalten ihre Werte.
replace-it = Ersetzen
the-findings-are-not-saved = Die Befunde sind nicht gespeichert
closing-the-photo = Mit dem Schließen des Fotos
closing-the-window = Mit dem Schließen des Fensters
would-lose-what-was-measured = { $doing } ginge verloren, was auf { $photos } gemessen wurde.
go-back-and-save-them = Zurück und speichern
discard-all = Alles verwerfen
they-cannot-be-saved-now = Sie können jetzt nicht gespeichert werden: { $why }.
this-photo-belongs-to-another-voucher = Dieses Foto gehört schon zu { $number }
attach-only-if-both-are-shown = Seine Befunde nur dann auch an { $this } heften, wenn es beide Exemplare zeigt. Sonst { $other } oder ein anderes Foto wählen.
attach-to-this-too = Auch an { $this } heften
poreline-did-not-come-to-its = Poreline kam beim letzten Mal nicht zu seinem Ende
this-was-open-with-everything-that = Dies war offen, mit allem, was gesetzt und korrigiert war:
photos-that-were-measured-are-measured = Fotos, die gemessen waren, werden wieder gemessen, mit demselben Ergebnis.
go-on-where-it-stopped = Dort weitermachen
drop-it = Verwerfen
the-voucher-is-not-saved = Der Beleg ist nicht gespeichert
closing-the-window-would-lose = Mit dem Schließen des Fensters ginge verloren,
this-drops = Damit wird verworfen,
going-on-would-lose = Beim Weitermachen ginge verloren,
would-lose-what-you-typed = { $doing } was Sie in { $number } eingetippt haben, seit er gespeichert wurde.
save-first = Zuerst speichern
discard = Verwerfen
cancel = Abbrechen
voucher-changed-by-somebody-else = { $number } wurde von jemand anderem geändert
since-you-began-another-window-or-person = Seit Sie begonnen haben, hat ein anderes Fenster oder eine andere Person diesen Beleg gespeichert. Nichts wurde überschrieben. Diese Felder wurden von beiden geändert:
since-you-began-another-window-or = Seit Sie begonnen haben, hat ein anderes Fenster oder eine andere Person diesen Beleg gespeichert. Nichts wurde überschrieben, und Sie haben Verschiedenes geändert, sodass beides zusammenpasst.
field = Feld
yours = Ihres
theirs = Das andere
put-together-yours-in-these-fields = Zusammenfügen, in diesen Feldern Ihres
put-together = Zusammenfügen
put-together-theirs-in-these-fields = Zusammenfügen, in diesen Feldern das andere
keep-both = Beide behalten
theirs-stays-as-it-is-yours = Das andere bleibt, wie es ist; Ihres wird ein Beleg mit der nächsten Nummer
go-on-typing = Weitertippen
shortcuts = Tastenkürzel

## Messages

dismiss = Ausblenden
not-done = Nicht getan
let-go-to-open-the-photo = Loslassen, um das Foto zu öffnen

## Finder

what-do-you-want-to-do = Was möchten Sie tun?
for-example-scale-bar-measure-dark = zum Beispiel: Maßstabsbalken, messen, dunkel
nothing-goes-by-these-words = Nichts heißt so.
go-to-photo = Zu { $photo } gehen
photo-strip = Foto Streifen
this-is-the-photo-that-is = Dies ist das Foto, das gezeigt wird
open-recent-photo = { $photo } öffnen
recent-photo = zuletzt Foto
it-is-not-there-any-more = Es ist nicht mehr da
opened-before = früher geöffnet
arrow-keys-choose-enter-does-it = Pfeiltasten wählen, Eingabe tut es, Esc schließt.

## What can be done by name; `words` are other words that it may be looked for by

do-find-what-to-do = Etwas zum Tun suchen
    .words = Finder Befehl Suche
do-open-photos = Fotos öffnen
    .words = Datei Bild laden
do-next-photo = Nächstes Foto
    .words = Streifen vorwärts weiter
do-photo-before = Voriges Foto
    .words = Streifen zurück vorheriges
do-take-this-photo-out-of-the = Dieses Foto aus dem Streifen nehmen
    .words = schließen entfernen
do-go-to-step-1-photo = Zu Schritt 1, Foto
    .words = öffnen gehen
do-go-to-step-2-scale = Zu Schritt 2, Maßstab
    .words = Millimeter gehen
do-go-to-step-3-area = Zu Schritt 3, Fläche
    .words = Umriss Bereich gehen
do-go-to-step-4-pores = Zu Schritt 4, Poren
    .words = zählen Zähne gehen
do-go-to-step-5-record = Zu Schritt 5, Aufzeichnen
    .words = Beleg Belegbuch gehen
do-measure = Messen
    .words = zählen Poren Zähne beginnen starten
do-measure-a-folder = Einen Ordner mit Fotos messen
    .words = Stapel viele alle Serie
do-stop-what-is-under-way = Abbrechen, was gerade läuft
    .words = anhalten stoppen
do-save = Speichern
    .words = Befunde Beleg sichern schreiben
do-save-the-findings-without-a-file = Befunde ohne Dateidialog speichern
    .words = neben Foto Ordner
do-save-the-table-of-pores = Tabelle der Poren speichern
    .words = CSV Tabelle exportieren
do-save-the-picture-with-outlines-and = Bild mit Umrissen und Maßstabsbalken speichern
    .words = Overlay PNG Folie exportieren
do-undo = Rückgängig
    .words = zurücknehmen
do-redo = Wiederherstellen
    .words = nochmals tun
do-scale-from-two-points = Maßstab aus zwei Punkten
    .words = klicken Linie
do-scale-from-a-scale-bar = Maßstab aus einem Maßstabsbalken
    .words = finden
do-scale-from-a-ruler = Maßstab aus einem Lineal
    .words = Teilstriche Millimeter Zoll
do-scale-from-the-scale-card = Maßstab aus der Maßstabskarte
    .words = Neigung entzerren
do-scale-from-the-corners-of-a = Maßstab aus den Ecken eines Rechtecks
    .words = Neigung entzerren
do-scale-from-a-saved-set-up = Maßstab aus einem gespeicherten Aufbau
    .words = Kamera Stativ
do-scale-from-what-the-file-says = Maßstab nach der Datei
    .words = TIFF Auflösung
do-type-the-scale = Maßstab eintippen
    .words = Zahl Pixel
do-mark-something-white = Etwas Weißes markieren
    .words = Farbe Weißabgleich Papier
do-give-this-photos-scale-to-all = Maßstab dieses Fotos an alle Fotos geben
    .words = übertragen Streifen
do-give-this-photos-area-to-all = Fläche dieses Fotos an alle Fotos geben
    .words = übertragen Streifen Umriss
do-measure-the-whole-photo = Das ganze Foto messen
    .words = Umriss Fläche löschen
do-leave-nothing-out = Nichts aussparen
    .words = Ausgespartes Fläche löschen
do-take-all-corrections-away = Alle Korrekturen wegnehmen
    .words = Poren löschen
do-open-a-book = Belegbuch öffnen
    .words = Belege Ordner
do-open-the-demo-book = Beispielbuch öffnen
    .words = Demo ausprobieren Belege
do-show-the-book = Belegbuch zeigen
    .words = Liste Belege suchen
do-show-the-walks = Exkursionen zeigen
    .words = Häufigkeit Jahreszeit
do-new-voucher = Neuer Beleg
    .words = Exemplar aufzeichnen
do-attach-these-findings-to-the-voucher = Diese Befunde an den Beleg heften
    .words = behalten aufzeichnen Belegbuch
do-compare-with-published-ranges = Mit veröffentlichten Angaben vergleichen
    .words = Handbuch Taxa Arten
do-check-the-book = Belegbuch prüfen
    .words = Fehler falsch
do-show-the-photo = Das Foto zeigen
    .words = Bild
do-show-all-of-the-photo = Das ganze Foto zeigen
    .words = einpassen Zoom alles
do-turn-the-photo-right = Das Foto nach rechts drehen
    .words = Uhrzeigersinn
do-turn-the-photo-left = Das Foto nach links drehen
    .words = Gegenuhrzeigersinn
do-turn-the-photo-upright = Das Foto aufrecht drehen
    .words = gerade
do-show-outlines-or-not = Umrisse zeigen oder nicht
    .words = ausblenden Overlay
do-show-half-without-outlines = Zur Hälfte ohne Umrisse zeigen, oder ganz
    .words = Trennlinie vergleichen vorher nachher
do-show-the-loupe-or-not = Die Lupe zeigen oder nicht
    .words = vergrößern
do-show-the-scale-bar-or-not = Den Maßstabsbalken zeigen oder nicht
    .words = ausblenden Länge
do-words-of-the-trade = Fachwörter
    .words = Glossar Begriffe Bedeutung Pore Wand Zahn Angabe Intervall
do-preferences = Einstellungen
    .words = Optionen Schriftgröße Sprache
do-larger-text = Größere Schrift
    .words = Zoom Größe Augen
do-smaller-text = Kleinere Schrift
    .words = Zoom Größe
do-light-colours = Helle Farben
    .words = Aussehen hell Tag
do-dark-colours = Dunkle Farben
    .words = Aussehen Nacht
do-colours-as-the-system-has-them = Farben wie im System
    .words = Aussehen
do-measure-a-sample-photo-step-by = Ein Beispielfoto messen, Schritt für Schritt
    .words = Anleitung Hilfe lernen zuerst
do-shortcuts = Tastenkürzel
    .words = Tasten Tastatur Hilfe

## Why something cannot be done

nothing-is-outlined-yet = Es ist noch nichts umrissen
nothing-was-corrected = Nichts wurde korrigiert
nothing-was-taken-back = Nichts wurde zurückgenommen
there-is-nothing-to-take-back = Es gibt nichts zurückzunehmen
nothing-is-under-way = Es läuft nichts
there-is-no-other-photo-on = Auf dieser Seite gibt es kein anderes Foto

## Shortcuts on the photo

arrow-keys-enter = Pfeiltasten, Eingabe
on-the-photo-move-the-crosshair = Auf dem Foto: das Fadenkreuz bewegen, einen Punkt setzen; mit Umschalt um 1 px
enter-backspace-esc = Eingabe, Rücktaste, Esc
close-an-outline-drop-its-last = Einen Umriss schließen, seine letzte Ecke verwerfen, alles verwerfen
delete = Entf
in-step-pores-delete-the-pores = Im Schritt Poren: die ausgewählten Poren löschen
wheel = +, −, Rad
zoom-in-zoom-out-0-for = Vergrößern, verkleinern; 0 für ein Fotopixel je Bildschirmpixel
held-an-end-of-the-scale = Gedrückt: Ein Ende der Maßstabslinie bleibt von Kanten fern
enter = Eingabe
on-an-end-of-the-scale = Auf einem Ende der Maßstabslinie: es auf die nächste Kante setzen
insert-delete = Einfg, Entf
on-a-corner-of-the-area = Auf einer Ecke der Fläche: danach eine hinzufügen, sie wegnehmen
middle-or-right-drag = Mit mittlerer oder rechter Taste ziehen
move-the-photo-at-any-step = Das Foto bewegen, in jedem Schritt; auch durch Ziehen mit gedrückter Leertaste
redo = Wiederherstellen
undo = Rückgängig

## Guide

at-the-lower-right-of-the = Rechts unten auf dem Foto liegt ein gedruckter Balken. Sein linkes Ende anklicken, dann sein rechtes. Am Rad drehen, um sie größer zu sehen.
by-keyboard-p-then-arrow-keys = Mit der Tastatur: P, dann Pfeiltasten und Eingabe für jedes Ende.
type-on-the-left-how-long = Links eintippen, wie lang der Balken ist: 2 mm. Nun weiß Poreline, wie viele Pixel einen Millimeter ausmachen.
by-keyboard-tab-leads-to-the = Mit der Tastatur: Tab führt zum Feld.
go-on-to-step-3-area = Zu Schritt 3, Fläche, gehen und ein Rechteck über saubere Poren ziehen, von einer Ecke zur anderen, fern vom Balken.
by-keyboard-3-then-p-arrow = Mit der Tastatur: 3, dann P, Pfeiltasten und Eingabe für jede Ecke.
go-on-to-step-4-pores = Zu Schritt 4, Poren, gehen und Messen drücken. Es dauert ein paar Sekunden.
by-keyboard-ctrl-m = Mit der Tastatur: Strg+M.
on-the-right-stands-what-a = Rechts steht, was ein Handbuch drucken würde: wie viele Poren in einer Reihe meist auf einen Millimeter kommen, und in Klammern, wie wenige oder viele es stellenweise sind. Darunter steht, wie sicher jeder Wert ist: 95 von 100 solchen Bereichen enthalten den wahren Wert.
each-outline-on-the-photo-is = Jeder Umriss auf dem Foto ist eine Pore, die gezählt wurde. Auf eine zeigen, um ihre Größe zu lesen, und sie anklicken. Falsche lassen sich hier verbinden, teilen oder löschen.
step-5-record-keeps-the-findings = Schritt 5, Aufzeichnen, bewahrt die Befunde: sie an einen Beleg Ihres Belegbuchs heften, mit veröffentlichten Angaben vergleichen oder als Dateien speichern. Dann ein eigenes Foto öffnen. Poreline misst; es sagt nie, was ein Pilz ist, noch dass man ihn essen darf.
guide-step = Anleitung, { $number } von { $all }
next = Weiter
done = Fertig
leave-the-guide = Anleitung verlassen
ctrl-k-and-sample-begin-it = Strg+K und „Beispiel“ beginnen sie wieder
show-step-5 = Schritt 5 zeigen

## Words of the trade

pore = Pore
the-mouth-of-one-tube-on = Die Mündung einer Röhre auf der Unterseite, von unten gesehen: ein Hohlraum, den ringsum eine Wand schließt.
what-is-dark-the-inside-of = Was dunkel ist: das Innere der Röhren, die Lücken zwischen Lamellen oder Zähnen.
what-is-bright-the-tissue-between = Was hell ist: das Gewebe zwischen Hohlräumen.
tooth = Zahn
a-piece-of-wall-with-hollow = Ein Stück Wand mit Hohlraum ringsum, wo Wände aufgebrochen sind.
the-kinds-of-underside-poroid-hollows = Die Arten der Unterseite. Porig: Hohlräume, die voneinander abgeschlossen sind. Gezähnt: Wände, die voneinander abgeschlossen sind. Lamellig: keines von beiden, und in eine Richtung verlaufend. Labyrinthisch: keines von beiden, und in alle Richtungen verlaufend. Glatt: keine sichtbaren Hohlräume.
how-far-it-is-from-the = Wie weit es in einer Reihe von der Mitte einer Pore zur Mitte der nächsten ist.
how-many-pores-lie-in-a = Wie viele Poren in einer Reihe dicht gedrängter Poren auf einen Millimeter kommen, wie man sie neben einem Lineal zählt.
count-line = Zähllinie
a-line-of-one-millimetre-laid = Eine Linie von einem Millimeter, zufällig auf die Oberfläche gelegt, an der Poren gezählt werden, wie ein Mensch es täte.
per-mm-most-count-lines-hold = „(3–)4–5(–6) per mm“: Die meisten Zähllinien haben 4 oder 5 Poren, einige 3 oder 6. Wo weniger als etwa eine Pore auf einen Millimeter kommt, nennt sie stattdessen ihre Weiten. Sie sagt, wie sehr sich Stellen unterscheiden, nicht, wie sicher das Mittel ist.
the-range-that-is-to-hold = Der Bereich, der in 95 von 100 solchen Messungen den wahren Wert enthalten soll. Er wächst, wo wenige Poren gesehen wurden, wo der Maßstab unsicher ist und wo Kanten nicht scharf sind.
of-the-circle-that-is-as = Der des Kreises, der so groß ist wie die Pore.
feret-width = Feret-Weite
what-a-calliper-laid-across-the = Was eine quer über die Pore gelegte Schieblehre anzeigen würde: das Kleinste und das Größte davon.
elongation = Streckung
how-many-times-as-long-as = Wie viele Male so lang wie breit: 1 ist rund. Wo die mittlere Pore über 1,5 liegt, werden Poren auch längs und quer gezählt.
which-part-of-the-surface-is = Welcher Teil der Oberfläche hohl ist und nicht Wand.
a-kept-specimen-with-its-record = Ein aufbewahrtes Exemplar mit seiner Aufzeichnung, damit jemand anders noch einmal nachsehen und widersprechen kann.
cf-aff = cf., aff.
before-a-species-name-cf-to = Vor einem Artnamen: cf., zu vergleichen mit, ist ihr nahe, aber nicht entschieden; aff., verwandt mit, ist ihr nahe und etwas anderes.
poroid-toothed-gilled-maze-like-smooth = Porig, gezähnt, lamellig, labyrinthisch, glatt
pores-per-mm = Poren je mm
handbook-phrase = Handbuchangabe
interval-of-95-per-cent = 95-%-Intervall
diameter-nine-in-ten = Durchmesser, neun von zehn
diameter = Durchmesser
hollow-share = Hohlanteil
hollow-void = Hohlraum
spacing-second-opinion = Abstand, zweite Meinung
spacing = Abstand
wall-thickness = Wanddicke
wall-dissepiment = Wand, Dissepiment
words-of-the-trade = Fachwörter

## Preferences

as-the-system-speaks = Wie im System
language = Sprache
preferences = Einstellungen
text-size = Schriftgröße
colours = Farben
movement = Bewegung
nothing-moves-by-itself = Nichts bewegt sich von selbst
kept-from-one-start-to-the = Bleibt von Start zu Start erhalten, mit der Größe des Fensters und den zuletzt benutzten Ordnern.
close = Schließen

## File dialogs

open-photos = Fotos öffnen
photos = Fotos
all-files = Alle Dateien
open-a-book-choose-its-folder = Belegbuch öffnen: seinen Ordner wählen
save = Speichern
choose-a-folder-of-photos = Einen Ordner mit Fotos wählen

## What is missing

title-of-photo-and-findings = Poreline – { $photo } – { $findings }
open-a-photo-first = Zuerst ein Foto öffnen
something-is-asked-about-the-scale = Zum Maßstab wird etwas gefragt. In Schritt 2, Maßstab, antworten
the-scale-is-gone-set-it = Der Maßstab ist weg. Neu setzen
corrections-are-worked-in = Korrekturen werden eingearbeitet
working-out-the-figures-anew = Werte werden neu ausgerechnet
working-out-the-figures-at-the = Werte werden mit dem neuen Maßstab ausgerechnet
the-picture-has-changed-since-measure = Das Bild hat sich seither geändert. Neu messen
the-area-has-changed-since-measure = Die Fläche hat sich seither geändert. Neu messen
wait-until-the-present-work-is = Warten, bis die laufende Arbeit fertig ist, oder sie abbrechen
measure-first = Zuerst messen
saved-to = Gespeichert in { $path }
the-file-was-not-saved = Die Datei wurde nicht gespeichert ({ $error }); andere Programme schließen und noch einmal versuchen
that-outline-crosses-itself-or-encloses = Dieser Umriss kreuzt sich selbst oder umschließt nichts. Noch einmal zeichnen, einmal ringsum
title-of-photo = Poreline – { $photo }

## Carrying scale and area over

not-carried-over-to = { $what } nicht übertragen auf { $photos }: anders groß als das Foto, auf dem gezeichnet wurde
carried-over-to-other-photos =
    { $what } auf { $count } { $count ->
        [one] anderes Foto
       *[other] andere Fotos
    } übertragen
scale-as-on-photo = wie auf { $photo }
the-area-was-not-carried-over = Die Fläche wurde nicht übertragen: Dieses Foto ist anders groß als das, auf dem sie gezeichnet wurde
open-more-photos-first = Zuerst mehr Fotos öffnen
the-area-lies-on-a-straightened = Die Fläche liegt auf einem entzerrten Bild, und jedes Foto wird anders entzerrt
draw-an-area-first = Zuerst eine Fläche zeichnen
what-is-written-of-this-photos = Was über den Maßstab dieses Fotos geschrieben steht, gilt nur für dieses Foto; den Maßstab auf andere Weise setzen
set-the-scale-first = Zuerst den Maßstab setzen
scale = Maßstab
area = Fläche

## Corrections

correction-in-words = { $number }: { $done } bei { $x }, { $y } px
corrections-left-behind =
    { $count ->
        [one] Eine Korrektur von Hand liegt außerhalb dessen, was das entzerrte Bild zeigt, und wurde
       *[other] { $count } Korrekturen von Hand liegen außerhalb dessen, was das entzerrte Bild zeigt, und wurden
    } zurückgelassen. Rückgängig bringt alles zurück

## Histograms

number = Nummer

## The area in words

outline-and-parts-left-out =
    { $outline }, { $count ->
        [one] ein Teil ausgespart
       *[other] { $count } Teile ausgespart
    }
the-whole-photo = Das ganze Foto
a-rectangle-of = Ein Rechteck von { $width } × { $height } px
an-outline-with-corners = Ein Umriss mit { $count } Ecken

## Photos of the strip

not-opened-yet = noch nicht geöffnet
cannot-be-read = nicht lesbar
needs-its-scale = braucht seinen Maßstab
can-be-measured = kann gemessen werden
measured-not-saved = gemessen, nicht gespeichert
the-sample-photo-could-not-be = Das Beispielfoto konnte nicht nach { $folder } geschrieben werden ({ $error }); Platz auf der Platte schaffen und noch einmal versuchen
this-is-not-the-photo-as = Dies ist nicht das Foto, wie es war: Die Datei hat sich seither geändert. Maßstab und Fläche neu setzen

## Work under way

poreline-met-a-fault-of-its = Poreline stieß auf einen eigenen Fehler und hielt diese Arbeit an. Ihrem Foto ist nichts geschehen; bitte schicken Sie es uns mit einem Fehlerbericht

## Pieces of hollow and wall

pieces-of-a-phase =
    { $count ->
        [one] ein Stück
       *[other] { $count } Stücke, deren größtes { $per_cent } % enthält
    }
hollows-and-walls = Hohlräume: { $hollows }. Wände: { $walls }.

## One pore

not-counted-far-too-large = Nicht gezählt: viel zu groß
not-counted-at-the-edge = Nicht gezählt: am Rand
counted-pore = Gezählt
counted-but-cut-not-in-mean = Gezählt, aber angeschnitten: nicht in mittleren Größen
shaped-by-hand = , von Hand geformt
of-the-median = Vom Median
times-the-median = { $times }-mal

## Colours

as-the-system = Wie im System
light = Hell
dark = Dunkel

## Figures and what they mean

count-headline-95-per-cent-interval =
    Anzahl{"\u0009"}{ $headline }{"\u0009"}95-%-Intervall { $interval }
    {""}
nothing-is-outlined-hollows-of-a = Nichts ist umrissen: Die Hohlräume eines Labyrinths gehen ineinander über, sodass keiner für sich gezählt wird. Stattdessen wurden zufällige Linien darübergelegt.
nothing-is-outlined-gills-run-on = Nichts ist umrissen: Lamellen laufen über das Foto hinaus, sodass keine für sich gezählt wird. Stattdessen wurden zufällige Linien darübergelegt.
scale-and-how = { $figure } px je mm, { $how }
as-typed-in = wie eingetippt
from-two-points = aus zwei Punkten
from-ruler-marks = aus Linealstrichen
from-the-scale-bar = aus dem Maßstabsbalken
from-the-scale-card = aus der Maßstabskarte
from-four-corners = aus vier Ecken
from-a-set-up = aus einem Aufbau
as-the-file-says = wie die Datei sagt
what-is-in-the-interval =
    { $scale ->
        [exact] die Ungleichmäßigkeit von Ort zu Ort ist darin; der Maßstab gilt als genau
       *[unsure] die Ungleichmäßigkeit von Ort zu Ort und die Unsicherheit des Maßstabs sind darin
    }
the-interval-in-a-sentence =
    { $kind ->
        [maze-like] Ungefähr zwischen { $low } und { $high } { $things } je mm: { $within }. Auf gezeichneten Labyrinthen enthielt ein solches Intervall in vier von fünf Fällen die Wahrheit.
        [gilled] Ungefähr zwischen { $low } und { $high } { $things } je mm: { $within }. Wie oft ein solches Intervall von Lamellen die Wahrheit enthält, wurde nicht geprüft.
       *[other] Mit 95 % Vertrauen hat die Oberfläche zwischen { $low } und { $high } { $things } je mm: { $within }.
    }
things-per-mm = { $things } je mm
not-known = nicht bekannt
the-photo-does-not-say = das Foto sagt es nicht
very-likely = sehr wahrscheinlich
likely = wahrscheinlich
rather-likely = eher wahrscheinlich
doubtful = zweifelhaft
sureness-of-1 = { $word } ({ $share } von 1)
things-counted-per-mm = { $figure } { $things } je mm
so-many-per-mm = { $figure } je mm
pores = Poren
teeth = Zähne
gills = Lamellen
hollows-counted = Hohlräume
as-a-handbook-would-print-it-how = Wie ein Handbuch es drucken würde: wie die Weiten der Poren streuen. Es ist kein Intervall eines Mittels.
as-a-handbook-would-print-it-rounded = Wie ein Handbuch es drucken würde, gerundet: In die Fläche passt keine Linie von 1 mm, daher gibt es keine Streuung.
as-a-handbook-would-print-it = Wie ein Handbuch es drucken würde: wie Zählungen auf Linien von 1 mm von Linie zu Linie streuen. Es ist kein Intervall; das Mittel über die Fläche steht darunter mit seinem eigenen.
teeth-counted = Gezählte Zähne
teeth-whose-centre-lies-in-the = Zähne, deren Mitte in der gemessenen Fläche liegt, fern vom Rand des Fotos.
how-drawn-out-they-are-in = Wie gestreckt sie in der Mitte der Rangfolge sind: 1 ist rund, 2 ist doppelt so lang wie breit. Neun von zehn liegen in dem Bereich.
across-along = Quer / längs
across-and-along-per-mm = { $across } / { $along } je mm
the-pores-are-drawn-out-so = Die Poren sind gestreckt, daher hängt die Zahl von der Richtung ab: quer zu ihnen und längs.
mean-width-of-a-pore-the = Mittlere Weite einer Pore: der Durchmesser eines Kreises derselben Fläche. Der Bereich enthält das wahre Mittel mit 95 % Vertrauen.
median-of = Median { $figure }
from-the-5th-to-the-95th = Von der 5. bis zur 95. von 100 der Größe nach gereihten Poren: wie sehr sie sich untereinander unterscheiden.
nine-in-ten = neun von zehn { $low }–{ $high }
median = Median
tissue-between-neighbouring-pores-dissepiment-on = Gewebe zwischen benachbarten Poren (Dissepiment), auf der Linie, die ihre Mitten verbindet.
share-of-the-measured-area-that = Anteil der gemessenen Fläche, der hohl ist und nicht Wand.
pores-counted = Gezählte Poren
so-many-per-mm2 = { $figure } je mm²
pores-whose-centre-lies-in-the = Poren, deren Mitte in der gemessenen Fläche liegt; ein Streifen am Rand des Fotos bleibt draußen, weil dort Poren angeschnitten sind.
line-crossings = Linienschnitte
pores-hit-by-lines-laid-at = Poren, die von zufällig gelegten Linien getroffen werden. Das ist weniger oder mehr als die Zahl in einer Reihe und nicht mit Handbüchern zu vergleichen.
distance-between-neighbouring-pores-from-the = Abstand benachbarter Poren allein aus der Regelmäßigkeit des Bildes, ohne einzelne Poren anzusehen.
by-the-white-patch = nach dem weißen Feld
by-the-cards-white = nach dem Weiß der Karte
indicative-only-no-white = nur als Anhalt: kein Weiß
with-a-violet-tint = ; { $share } mit violettem Ton
colour = Farbe
mean-colour-of-the-walls-without = Mittlere Farbe der Wände, ohne die Hohlräume, in CIELAB: L* von Schwarz bis Weiß, a* von Grün bis Rot, b* von Blau bis Gelb. Das Wort ist das der nächsten Farbe in Porelines Namensliste.
area-measured = Gemessene Fläche
so-much-left-out = { $area } mm² ausgespart
the-part-of-the-surface-that = Der Teil der Oberfläche, der angesehen wurde.
pixels-of-the-photo-per-millimetre = Pixel des Fotos je Millimeter des Pilzes, mit der Standardunsicherheit. Jeder Wert in Millimetern beruht darauf.
tilt = Neigung
taken-out = herausgerechnet
how-far-the-camera-was-tilted = Wie weit die Kamera gegen die Oberfläche geneigt war. Das Bild wurde vor dem Messen entzerrt.

## The book

another-voucher-of-the-book-bears = Ein anderer Beleg des Belegbuchs trägt diese Nummer

## Opening a photo of a voucher again

this-is-not-the-photo-as-it = Dies ist nicht das Foto, wie es gemessen wurde: Die Datei hat sich seither geändert. Maßstab und Fläche neu setzen
the-photo-was-straightened-by-the = Das Foto war mit der Maßstabskarte entzerrt, die nun wieder gesucht wird. Danach in Schritt 4, Poren, Messen drücken
the-photo-was-straightened-by-four = Das Foto war mit vier Ecken entzerrt. Sie in Schritt 2, Maßstab, wieder anklicken, dann messen

## What is compared

with-host-colour-and-cap-of = , mit Wirt, Farbe und Hut von { $number }
the-findings-on-photo = Die Befunde auf { $photo }{ $with }
all-that-stands-in-voucher = Alles, was in { $number } steht
nothing-compared-yet = Noch nichts

## Agreement

agreement-in-numbers = stimmt in { $agrees } überein, nahe in { $near }, spricht in { $against } dagegen

## Vouchers changed twice

nothing = nichts
so-many-of-them = { $count } davon

## Fields of a voucher

catalogue-number = Belegnummer
such-as-af-2026-0001 = etwa AF-2026-0001
date-found = Funddatum
found-by = Gefunden von
names-with-between-them = Namen, mit | dazwischen
place = Ort
latitude-degrees = Breite, °
from-90-to-90-such-as = von -90 bis 90, etwa 52.64
longitude-degrees = Länge, °
from-180-to-180-such-as = von -180 bis 180, etwa -1.14
coordinates-hold-within-m = Koordinaten auf so viele m genau
more-than-0-such-as-50 = mehr als 0, etwa 50
habitat = Lebensraum
such-as-alder-carr = etwa Erlenbruch
walk = Exkursion
host-wood = Wirtsholz
host-tree = Wirtsbaum
such-as-fagus-sylvatica = etwa Fagus sylvatica
grew-from = Gewachsen an
decay-of-the-wood-1-sound = Abbau des Holzes, 1 fest bis 5 zerfallend
cap-width-cm = Hutbreite, cm
more-than-0-such-as-4 = mehr als 0, etwa 4,5
colour-of-the-underside = Farbe der Unterseite
such-as-cream = etwa cremefarben
scientific-name = Wissenschaftlicher Name
such-as-trametes-hirsuta = etwa Trametes hirsuta
doubt-about-the-name = Zweifel am Namen
named-by = Benannt von
whoever-gave-the-name = wer den Namen gab
reason-for-the-name = Grund für den Namen
such-as-3-to-4-pores = etwa 3 bis 4 Poren je mm, graue Zonen
notes = Notizen
zones-on-the-cap = Zonen auf dem Hut
such-as-narrow-brown-and-grey = etwa schmal, braun und grau
hairs-on-the-cap = Haare auf dem Hut
such-as-velvety = etwa samtig
how-the-cap-bends = Wie sich der Hut biegt
such-as-like-leather = etwa wie Leder
smell-when-fresh = Geruch frisch
such-as-anise = etwa Anis
colour-of-the-spore-print = Farbe des Sporenabwurfs
such-as-white = etwa weiß
where-it-is-kept = Wo es aufbewahrt wird
such-as-in-collection = etwa in Sammlung
country = Land
two-letters-such-as-gb = zwei Buchstaben, etwa GB
measurements = Messungen
date-of-the-name = Datum des Namens
what-was-done-to-the-place = Was mit dem Ort geschah
datum-of-the-coordinates = Datum der Koordinaten

## What is wrong in a field

a-latitude-alone-tells-no-place = Eine Breite allein sagt keinen Ort
a-longitude-alone-tells-no-place = Eine Länge allein sagt keinen Ort
a-name-can-be-replaced-by = Ein Name kann durch einen anderen ersetzt werden und bleibt dann in der Geschichte
the-name-itself-is-missing = Der Name selbst fehlt
every-voucher-has-a-number = Jeder Beleg hat eine Nummer
a-date-as-year-month-day = Ein Datum als Jahr-Monat-Tag, { $hint }
a-number-hint = Eine Zahl { $hint }

## The book on the disk

open-a-book-first = Zuerst ein Belegbuch öffnen
poreline-met-a-fault-of-its-own = Poreline stieß auf einen eigenen Fehler und hielt an. Was auf der Platte war, ist, wie es war; bitte schicken Sie uns einen Fehlerbericht
the-demo-book-could-not-be = Das Beispielbuch konnte nicht angelegt werden ({ $error }); Platz auf der Platte schaffen und noch einmal versuchen
there-is-no-book-in = In { $folder } ist kein Belegbuch. Den Ordner eines Belegbuchs wählen oder dort ein neues anlegen
there-is-a-book-in = In { $folder } ist schon ein Belegbuch; es öffnen oder einen anderen Ordner wählen. Nichts wurde geändert
the-catalogue-number-is-taken = Die Belegnummer { $number } ist vergeben, vielleicht eben erst von jemand anderem. Das Belegbuch neu lesen und die nächste nehmen; was Sie eingetippt haben, ist noch da
the-book-has-it-no-more = Das Belegbuch hat { $kind } { $name } nicht mehr. Das Belegbuch neu lesen; was Sie eingetippt haben, ist noch da

## Vouchers in words

name = Name
underside = Unterseite
per-mm = Je mm
kind-of-not-all-photos = { $kind }, nicht alle
a-file-is-damaged = { $file } ist beschädigt und wurde gelassen, wie sie ist: { $why }. In einem Texteditor reparieren oder aus einer Kopie des Belegbuchs nehmen
pooled-figure =
    { $figure } je mm, 95-%-Intervall { $low }–{ $high }, aus { $count ->
        [one] einem Foto
       *[other] { $count } Fotos
    }
not-measured = nicht gemessen
somebody = jemandem
named-on-date = {" "}am { $date }
named-by-whom = { $name }, benannt von { $by }{ $on }{ $why }
measured-when-by-who = gemessen { $when } von { $who }
measured-when = gemessen { $when }
kind-of-surface = Oberfläche { $kind }
unknown = unbekannt

## Files of the book

making-the-file = Datei wird erzeugt
the-list-is-empty-so-there = Die Liste ist leer, also gibt es nichts zu drucken
the-book-has-no-voucher-yet-so = Das Belegbuch hat noch keinen Beleg, also gibt es nichts zu speichern
the-book-states-no-licence-so = Das Belegbuch nennt keine Lizenz, daher darf niemand die Daten nutzen; „license“ in book.json ergänzen
look-whether-notes-and-photos-tell = Nachsehen, ob Notizen und Fotos die Orte trotzdem verraten
pick-a-voucher-first-and-save = Zuerst einen Beleg wählen und ihn speichern
the-report-goes-without-a-picture = Der Bericht kommt ohne ein Bild von { $why } aus
nothing-was-saved = Nichts wurde gespeichert: { $error }

## What is missing of a walk

type-date-and-place-first = Zuerst Datum und Ort eintippen
the-date-is-written-as-year = Das Datum wird als Jahr-Monat-Tag geschrieben, etwa 2026-10-04
how-many-walked-is-a-whole = Wie viele mitgingen, ist eine ganze Zahl, etwa 7
type-a-name-first = Zuerst einen Namen eintippen

## Work on the book

the-book-that-was-open-last = Das zuletzt offene Belegbuch ist nicht mehr in { $folder }. In Schritt 5, Aufzeichnen, dort öffnen, wo es jetzt ist
wait-until-the-book-is-written = Warten, bis das Belegbuch geschrieben oder gelesen ist
it-is-saved = Er ist gespeichert
pick-a-voucher-or-make-a = Einen Beleg wählen oder einen neuen anlegen
opening-the-book = Belegbuch wird geöffnet
making-the-book = Belegbuch wird angelegt
making-the-demo-book = Beispielbuch wird angelegt
reading-the-book-anew = Belegbuch wird neu gelesen
checking-the-book = Belegbuch wird geprüft
saving-the-walk = Exkursion wird gespeichert
the-book-cannot-be-reached = Das Belegbuch ist nicht zu erreichen ({ $error }); andere Programme schließen und noch einmal versuchen
saved-file = { $file } gespeichert
saved-voucher = { $number } gespeichert
pooled-now = {"."} Jetzt { $pooled }
attached-to-voucher = An { $number } geheftet{ $together }
mend-the-fields-that-are-marked = Die im Beleg markierten Felder berichtigen. Noch wurde nichts gespeichert, und was Sie eingetippt haben, ist noch da
saving-the-voucher = Beleg wird gespeichert
save-the-voucher-that-is-being = Den Beleg speichern, der gerade ausgefüllt wird, dann das Foto noch einmal ziehen
nothing-was-attached = Nichts wurde angeheftet. { $why }, dann das Foto noch einmal ziehen
nothing-was-attached-photo-belongs = Nichts wurde angeheftet: Dieses Foto gehört schon zu { $number }. Wenn es beide Exemplare zeigt, in Schritt 5 Befunde anheften drücken
the-file-of-a-voucher-is-damaged = Die Datei von { $number } ist auf der Platte beschädigt. In einem Texteditor reparieren oder aus einer Kopie des Belegbuchs nehmen; was Sie eingetippt haben, ist noch da
the-two-could-not-be-put = Die beiden ließen sich nicht zusammenfügen; was Sie eingetippt haben, ist noch da. Das Belegbuch neu lesen
which-book-is-open-could-not = Welches Belegbuch offen ist, ließ sich für den nächsten Start nicht festhalten ({ $error }); es dann von Hand öffnen
book-and-vouchers =
    { $book }, { $count ->
        [one] ein Beleg
       *[other] { $count } Belege
    }
working = arbeitet
the-voucher-is-not-saved-yet = Der Beleg ist noch nicht gespeichert
keep-the-findings = Die Befunde bewahren
keep-the-findings-once-they-are = Die Befunde bewahren, sobald sie da sind
saved-save-more-or-open-the = Gespeichert. Mehr speichern oder das nächste Foto öffnen
attach-the-findings-to-a-voucher = Die Befunde an einen Beleg heften
save-the-findings-to-keep-them = Die Befunde speichern, um sie zu behalten

## What a crash left

what-was-open-when-poreline-ended = Was offen war, als Poreline zuletzt endete, ist nicht lesbar. Seine Datei wurde als { $file } beiseitegelegt
voucher-so-numbered = Beleg { $number }
what-you-do-now-would-be = Was Sie jetzt tun, ginge bei einem Absturz verloren ({ $why }). Befunde und Belege zwischendurch speichern

## Ways to a scale

two-points-on-the-photo = Zwei Punkte auf dem Foto
ruler = Lineal
scale-card = Maßstabskarte
corners-of-a-rectangle = Ecken eines Rechtecks
a-saved-set-up = Ein gespeicherter Aufbau
what-the-file-says = Was die Datei sagt
type-pixels-per-millimetre = Pixel je Millimeter eintippen
as-it-stands-in-the-book = Wie es im Belegbuch steht
click-both-ends-of-a-length = Beide Enden einer bekannten Länge anklicken
the-bar-is-found-by-itself = Der Balken wird von selbst gefunden; Sie tippen ein, wie lang er ist
drag-along-the-rulers-edge-its = Die Kante des Lineals entlangziehen; seine Teilstriche werden von selbst gefunden
porelines-own-card-printed-with-poreline = Porelines eigene Karte, gedruckt mit `poreline card`, wird von selbst gefunden und die Neigung der Kamera herausgerechnet
click-the-corners-of-a-rectangle = Die Ecken eines bekannten Rechtecks anklicken, das auf der Oberfläche liegt; die Neigung der Kamera wird herausgerechnet
the-scale-of-a-photo-by = Der früher gespeicherte Maßstab eines Fotos derselben Kamera aus demselben Abstand
microscopes-and-scanners-write-the-scale = Mikroskope und Scanner schreiben den Maßstab in die Datei; geprüft hat ihn niemand
the-number-that-you-know-from = Die Zahl, die Sie von einem anderen, ebenso aufgenommenen Foto kennen
the-scale-by-which-this-photo = Der Maßstab, mit dem dieses Foto für seinen Beleg gemessen wurde
looking-for-the-scale-bar = Maßstabsbalken wird gesucht
reading-the-ruler = Lineal wird abgelesen
looking-for-the-scale-card = Maßstabskarte wird gesucht
straightening-the-photo = Foto wird entzerrt
does-the-set-up-fit-see = Passt der Aufbau? Siehe unten
is-this-scale-right-see-below = Stimmt dieser Maßstab? Siehe unten
use-it-all-the-same = Trotzdem verwenden
the-scale-is-right = Der Maßstab stimmt
choose-another-way-the-file-says = Einen anderen Weg wählen: Die Datei sagt nichts
choose-another-way-the-book-says = Einen anderen Weg wählen: Das Belegbuch sagt nichts
press-find-the-scale-card = Maßstabskarte finden drücken
press-straighten-the-photo = Foto entzerren drücken
click-one-end-of-the-ruler-or = Ein Ende des Lineals oder Maßstabsbalkens auf dem Foto anklicken
now-click-the-other-end = Nun das andere Ende anklicken
type-the-length-between-the-two = Die Länge zwischen den beiden Punkten eintippen
type-how-many-pixels-make-one = Eintippen, wie viele Pixel einen Millimeter ausmachen
not-a-number = „{ $typed }“ ist keine Zahl; zum Beispiel 85,2 schreiben
press-find-the-scale-bar = Maßstabsbalken finden drücken
pick-the-scale-bar-among-the = Den Maßstabsbalken unter den gefundenen Strichen wählen
type-how-long-the-scale-bar = Eintippen, wie lang der Maßstabsbalken ist
drag-along-the-rulers-edge-on = Auf dem Foto die Kante des Lineals entlangziehen
press-read-the-ruler = Lineal ablesen drücken
pick-one-of-the-saved-set = Einen der gespeicherten Aufbauten wählen
click-a-corner-of-the-rectangle-on = Eine Ecke des Rechtecks auf dem Foto anklicken
click-the-next-corner-along-its = Die nächste Ecke anklicken, seine Breite entlang
click-the-third-corner = Die dritte Ecke anklicken
click-the-last-corner = Die letzte Ecke anklicken
type-the-rectangles-width-and-height = Breite und Höhe des Rechtecks eintippen
no-scale-bar-was-found-on = Auf diesem Foto wurde kein Maßstabsbalken gefunden. Wenn es einen gibt, „Zwei Punkte auf dem Foto“ wählen und seine beiden Enden anklicken.

## What is told of a scale

told-by-the-ticks = Nach den Teilstrichen
the-ticks-were-found-but-not = Die Teilstriche wurden gefunden, aber nicht, was zwischen zweien liegt: Es können { $names } sein. Auf dem Lineal nachsehen und unter „Von Teilstrich zu Teilstrich“ wählen.
the-file-says-a-scale = Die Datei sagt { $scale } px je mm ({ $source })
how-long-the-bar-is = Der Balken ist { $length } px lang. Er wird mit seiner Beschriftung ausgespart.
the-card-was-found-and-is = Die Karte wurde gefunden und wird von selbst ausgespart.
straightened-picture = Entzerrtes Bild: Eine Neigung von { $degrees }° ist herausgerechnet
stroke-so-long = { $number }: { $length } px lang
the-scale-bar-and-its-label = Der Maßstabsbalken und seine Beschriftung werden von selbst ausgespart.
the-ruler-is-left-out-by = Das Lineal wird von selbst ausgespart, soweit seine Teilstriche reichen.
the-scale-card-is-left-out = Die Maßstabskarte wird von selbst ausgespart.
as-you-chose = wie von Ihnen gewählt
told-by-the-long-and-the = nach den langen und den kurzen
ticks-found = { $count } Teilstriche gefunden, { $between } auseinander, { $how }.
standard-error-of-the-scale = Standardfehler des Maßstabs: { $per_cent } %.
marks-out-of-line =
    { $count ->
        [one] Ein Strich außer der Reihe wurde
       *[other] { $count } Striche außer der Reihe wurden
    } nicht verwendet, auf dem Foto durchkreuzt.

## Set-ups

does-not-fit-this-photo = , passt nicht zu diesem Foto
set-up-in-words = { $name }: { $figure } px je mm{ $doubt }
saved-the-set-up = Der Aufbau „{ $name }“ ist gespeichert. Andere Fotos dieser Kamera aus diesem Abstand können ihren Maßstab von ihm nehmen
type-a-name-for-the-set = Einen Namen für den Aufbau eintippen
no-name-for-a-set-up = „{ $name }“ kann nicht der Name eines Aufbaus sein; Buchstaben, Ziffern, Leerzeichen, Bindestriche und Punkte verwenden
there-is-no-home-folder-to = Es gibt kein Benutzerverzeichnis, in dem Aufbauten liegen könnten

## Settings taken up again

the-photo-could-not-be-straightened = Das Foto ließ sich nicht wie zuvor entzerren, daher sind Fläche und Korrekturen weg. Den Maßstab in Schritt 2 neu setzen

## How far each step is

parts-are-left-out =
    { $count ->
        [one] Ein Teil ist ausgespart
       *[other] { $count } Teile sind ausgespart
    }
step-pores = Poren
record = Aufzeichnen
step-done = fertig
needs-you = braucht Sie
later = später
cancelled-open-a-photo = Abgebrochen. Ein Foto öffnen
open-a-photo-of-the-underside = Ein Foto der Unterseite öffnen
how-many-pixels-make-a-millimetre = Wie viele Pixel einen Millimeter ausmachen
which-part-of-the-surface-to = Welcher Teil der Oberfläche zu messen ist
measure-and-look-at-what-was = Messen und ansehen, was gefunden wurde
opening = öffnet
cancelled-still-photo = Abgebrochen. Weiterhin { $photo }
looking = sucht
stopped-then = Angehalten. { $what }
this-gives-no-scale-yet-see = Das ergibt noch keinen Maßstab; siehe unten
share-left-out-as-unusable = {"."} { $share } des Fotos sind als unbrauchbar ausgespart
draw-an-area-or-press-whole = Eine Fläche zeichnen oder Ganzes Foto drücken
the-scale-line-lies-in-it = { $area }. Die Maßstabslinie liegt darin
the-scale-line-lies-in-the = Die Maßstabslinie liegt in der Fläche. Eine Fläche nur mit Poren zeichnen
measuring = misst
starting-to-measure = Das Messen beginnt
measure-once-the-scale-is-set = Messen, sobald der Maßstab gesetzt ist
cancelled-press-measure-to-begin-again = Abgebrochen. Messen drücken, um neu zu beginnen
ready-press-measure = Bereit. Messen drücken
correcting = korrigiert
cancelled-still-findings = Abgebrochen. Weiterhin { $findings }

## White reference

colours-are-referred-to-the-white = Farben beziehen sich auf das Weiß, das Sie markiert haben.
colours-are-referred-to-the-cards = Farben beziehen sich auf das Weiß der Karte selbst.
without-one-colours-are-indicative-only = Ohne eine sind Farben nur ein Anhalt.

# Words of the engine, which are looked up by what they say: the ids are free.

## Kinds of surface

word-smooth = glatt
word-poroid = porig
word-maze-like = labyrinthisch
word-gilled = lamellig
word-toothed = gezähnt
word-undecided = unentschieden

## Parts of an uncertainty

word-place-to-place = von Ort zu Ort
word-scale = Maßstab
word-outlines = Umrisse

## What measuring is at

word-looking-for-the-scale = Maßstab wird gesucht
word-finding-the-usable-part = Brauchbarer Teil wird gesucht
word-finding-the-spacing = Abstand wird bestimmt
word-telling-hollows-from-walls = Hohlräume und Wände werden unterschieden
word-tracing-outlines = Umrisse werden gezogen
word-counting = Es wird gezählt

## Why something is left out

word-left-out-by-hand = von Hand ausgespart
word-dark-surround = dunkle Umgebung
word-strip-along-the-edge = Streifen am Rand
word-no-pores-to-be-seen = keine Poren zu sehen
word-out-of-focus = unscharf
word-glare-or-overexposed = Glanz oder überbelichtet
word-too-dark = zu dunkel
word-not-this-surface = nicht diese Oberfläche
word-bar-ruler-or-card = Balken, Lineal oder Karte
word-beyond-the-photo = außerhalb des Fotos

## Characters that are compared

word-underside = Unterseite
word-pores-per-mm = Poren je mm
word-gills-per-mm = Lamellen je mm
word-pore-width = Porenweite
word-host-wood = Wirtsholz
word-colour-of-the-underside = Farbe der Unterseite
word-cap-width = Hutbreite
word-agrees = stimmt überein
word-near = nahe
word-speaks-against = spricht dagegen

## What a voucher can say

word-hardwood = Laubholz
word-conifer = Nadelholz
word-log = Stamm am Boden
word-stump = Stumpf
word-stick = Ast
word-standing-tree = stehender Baum
word-wound = Wunde

## Corrections

word-joined = verbunden
word-split = geteilt
word-deleted = gelöscht
word-added = hinzugefügt
word-drawn = gezeichnet

## Months

word-jan = Jan
word-feb = Feb
word-mar = Mär
word-apr = Apr
word-may = Mai
word-jun = Jun
word-jul = Jul
word-aug = Aug
word-sep = Sep
word-oct = Okt
word-nov = Nov
word-dec = Dez

## Where the book is wrong

word-look = ansehen
word-wrong = falsch

## Colours

word-in-part-with-a-violet-tint = , zum Teil mit violettem Ton
word-with-a-violet-tint = {" "}mit violettem Ton
word-whitish = weißlich
word-cream = cremefarben
word-buff = hell ockergelb
word-straw-yellow = strohgelb
word-yellow = gelb
word-orange = orange
word-ochre = ocker
word-tan = gelbbraun
word-cinnamon = zimtfarben
word-rusty-brown = rostbraun
word-brown = braun
word-reddish-brown = rotbraun
word-dark-brown = dunkelbraun
word-greyish-brown = graubraun
word-pinkish-buff = rosa-ocker
word-pinkish = rosa
word-red = rot
word-pale-violet = blassviolett
word-violet-grey = violettgrau
word-violet = violett
word-purplish-brown = purpurbraun
word-pale-grey = hellgrau
word-grey = grau
word-bluish-grey = blaugrau
word-dark-grey = dunkelgrau
word-blackish = schwärzlich
word-olive = oliv
word-greenish = grünlich

## Keys

word-key-ctrl = Strg
word-key-shift = Umschalt
word-key-pagedown = Bild ab
word-key-pageup = Bild auf
word-key-plus = Plus
word-key-minus = Minus
