# What the window says, in English: the language in which every text is written first.
# What is between braces is filled in. Where one and many differ, a number chooses between them.

## Window

type-the-folder-of-the-book = Type the folder of the book in step 5, Record
type-the-photos-path-in-step = Type the photo's path in step 1, Photo
type-the-folder-in-step-5 = Type the folder in step 5, Record, under “Without a file dialog”
no-file-dialog-appeared-on-this = No file dialog appeared on this system. { $instead }
hide-the-findings = Hide the findings
show-the-findings = Show the findings
show-photo-as-taken = Show photo as taken
shows-the-photo-with-its-tilt = Shows the photo with its tilt again; the scale is then to be set anew
type-the-folder-of-photos-in = Type the folder in step 1, Photo, under “A folder of photos”
nothing-opens-it = { $path } could not be opened: { $error }. Open it in a browser by hand

## Rail of steps

take-back = Take back
do-again = Do again
changes-of-scale-area-or-pores = { $meaning } a change of scale, area or pores ({ $shortcut })
open-finder = Find…
type-what-you-want-to-do = Type what you want to do, and do it ({ $keys })
keys = Keys
all-shortcuts-f1-or = All shortcuts (F1 or ?)
open-preferences = Preferences…
text-size-colours-movement = Text size, colours, movement
words = Words…
what-pore-wall-handbook-phrase-and = What pore, wall, handbook phrase and other words of the trade mean
step-in-full = Step { $number }, { $step }: { $standing }. { $sentence }

## Steps

next-step = Next: { $step }

## Step 1, Photo

taken-at = Taken { $when }
choose-photos-here = Open photos…
choose-one-photo-or-several = Choose one photo or several ({ $shortcut })
answer-the-file-dialog-that-is = Answer the file dialog that is open
it-is-not-there-any-more-told = It is not there any more: { $told }
not-there-any-more = Not there any more
opening-name = Opening { $name }
or-type-its-path = Or type its path
open = Open
type-a-path-first = Type a path first
opening-path = Opening { $path }
measure-the-underside-of-a-bracket = Measure the underside of a bracket fungus
take-the-photo-squarely-close-up = Take the photo squarely, close up, in even light, with a ruler or scale bar lying in the plane of the pores.
three-ways-to-open-photos = Three ways to open photos
choose-photos = Choose photos…
try-it-on-a-sample-photo = Try it on a sample photo
opens-a-photo-and-leads-you = Opens a photo and leads you through measuring it, in three minutes
photos-opened-before = Opened before
press-the-button-below = Press the button below ({ $shortcut }), or type the path on the left.
drag-photos-from-a-folder-onto = Drag photos from a folder onto this window.
start-from-a-terminal-poreline-underside = Start from a terminal: poreline underside.jpg
a-folder-of-photos = A folder of photos
every-photo-in-it-is-measured = Every photo in it is measured as the open photo is: a bar, a card or what the file says is found anew on each, any other scale is taken over as a set-up.
folder-of-photos = Folder of photos
choose-the-folder = Choose…
folder-for-the-results = Folder for the results
its-area-on-each-photo = This area on each photo
at-the-same-place-on-each = The outline of the open photo, at the same place on each; otherwise all that can be used is measured
with-a-table-of-all-pores = With a table of all pores
with-pictures-with-outlines = With pictures with outlines
voucher-in-the-photos-name = Voucher in the photo’s name
such-as-voucher-star = such as {"{"}voucher{"}"}_*
photos-of-one-voucher-are-pooled = {"{"}voucher{"}"} stands for the catalogue number, * for anything else. Photos of one voucher are pooled to one figure
attach-to-the-open-book = Attach to the vouchers of the open book
photos-are-copied-into-the-book = The photos are copied into the book. Vouchers that it does not have are told, not added
measure-the-folder = Measure the folder
what-was-measured-is-kept-start = What was measured is kept. Started again, it goes on where it was
go-on-working-meanwhile-closing-the = Go on working meanwhile. Closing the window stops it; started again, it goes on where it was.
open-the-contact-sheet = Open the contact sheet
the-results-lie-in = All results lie in { $folder }
a-folder-is-being-measured = A folder is being measured
open-one-of-its-photos-first = Open one of its photos first
type-the-folder-of-photos-first = Type the folder of photos first
say-where-the-voucher-stands = Say where the voucher stands in the photo’s name
the-folder-was-not-begun = The folder was not begun ({ $error }); close other programs and try again
the-folder-was-stopped = The folder was stopped. What was measured is kept; started again, it goes on where it was
folder-files-done = { $done } of { $files } files
folder-pace =
    , { $rate } a minute, { $minutes ->
        [0] less than a minute left
        [one] about a minute left
       *[other] about { $minutes } minutes left
    }
folder-failed = , { $count } not measured
folder-measured =
    { $count ->
        [one] 1 photo
       *[other] { $count } photos
    } of the folder measured, { $failed } not{ $others ->
        [0] {"."}
        [one] ; another file is no photo.
       *[other] ; { $others } other files are no photos.
    }
folder-attached = { $count } attached to vouchers, { $before } were there already.
folder-without-vouchers = The book has no voucher { $numbers }.

## Step 2, Scale

corners-were-set-on-a-small-picture = The corners were set on a small picture: zoom in for a surer scale, and move them.
pixels-per-millimetre = Pixels per millimetre
such-as-85-2-px = such as 85.2
stop = Stop
plus-minus-is-the-standard-uncertainty-each = ± is the standard uncertainty: each end is placed to one pixel of photo or screen, in a diamond to half a pixel. A longer line makes it smaller.
taken-as-exact = Taken as exact.
a-longer-line-makes-it-smaller = A longer line makes it smaller.
plus-minus-is-the-standard-uncertainty = ± is the standard uncertainty.
zoom-in-with-the-wheel-and = Zoom in with the wheel and click each end; move the ends afterwards. By keyboard: P, arrow keys, Enter.
put-ends-on-edges = Put ends on edges
an-end-goes-to-the-middle = An end goes to the middle of the nearest edge within 8 pixels of the screen. With Alt held it stays where you point
length-between-the-ends = Length between the ends
such-as-5-mm = such as 5 mm
set-the-ends-again = Set the ends again
a-pixel-of-the-screen-covers = A pixel of the screen covers { $px } px of the photo: zoom in for a surer scale.
ends-were-set-on-a-small-picture = The ends were set on a small picture: zoom in for a surer scale, and move them.
find-the-scale-bar = Find the scale bar
several-strokes-could-be-the-scale = Several strokes could be the scale bar. Pick the right one, here or on the photo.
length-of-the-scale-bar = Length of the scale bar
such-as-2-mm = such as 2 mm
drag-on-the-photo-along-the = Drag on the photo along the edge that the ticks stand on, as far as they are sharp. By keyboard: P, arrow keys, Enter at each end.
from-tick-to-tick = From tick to tick
read-the-ruler = Read the ruler
drag-again-for-another-line-or = Drag again for another line, or move its ends.
the-card-has-to-lie-on = The card has to lie on the surface with at least three of its corner marks in the picture.
find-the-scale-card = Find the scale card
click-the-four-corners-one-after = Click the four corners one after the other, going round, along the width first. By keyboard: P, arrow keys, Enter.
width-of-the-rectangle = Width
such-as-30-mm = such as 30 mm
height-of-the-rectangle = Height
such-as-20-mm = such as 20 mm
set-the-corners-again = Set the corners again
straighten-the-photo = Straighten the photo
no-set-up-has-been-saved = No set-up has been saved yet. Set the scale of a photo in another way, and save it as a set-up then.
pick-the-one-that-this-photo = Pick the one that this photo was taken with.
save-this-scale-as-a-set = Save this scale as a set-up
for-other-photos-by-this-camera = For other photos by this camera at this distance, with the same zoom.
name-of-the-set-up = Name of the set-up
such-as-stand = such as stand
save-set-up = Save set-up
white-reference-for-colour = White reference, for colour
mark-something-white = Mark something white
then-drag-a-rectangle-over-paper = Then drag a rectangle over paper or something else that is white, in the same light as the surface
remove-the-white = Remove the white
drag-a-rectangle-over-something-white-in = Drag a rectangle over something white in the same light as the surface. By keyboard: arrow keys, Enter at each corner.

## Step 3, Area

nothing-without-a-photo = Open a photo first.
draw-with = Draw with
rectangle = Rectangle
drag-from-corner-to-corner-or = Drag from corner to corner, or click two opposite corners
outline = Outline
click-corner-by-corner-enter-a = Click corner by corner; Enter, a double click or a click on the first corner closes it
freehand = Freehand
drag-once-around-the-part-to = Drag once around the part to measure; its corners can be moved afterwards
leave-out-a-part = Leave out a part
drag-a-rectangle-over-a-part = Drag a rectangle over a part that is not to be measured, or click round it: damage, dirt, a ruler
drag-a-rectangle-over-pores-that = Drag a rectangle over pores that are sharp and seen squarely.
click-around-pores-that-are-sharp = Click around pores that are sharp and seen squarely.
drag-around-pores-that-are-sharp = Drag around pores that are sharp and seen squarely.
drag-a-rectangle-over-what-is = Drag a rectangle over what is not to be measured, or click around it.
by-keyboard-p-arrow-keys-enter = By keyboard: P, arrow keys, Enter at each corner.
whole-photo = Whole photo
measure-all-of-the-photo-but = Measure all of the photo but what is left out
clear-outline = Clear outline
take-the-outline-away-parts-that = Take the outline away; parts that are left out stay
clear-left-out-parts = Clear left-out parts
leave-nothing-out-the-outline-stays = Leave nothing out; the outline stays
hardly-any-of-this-photo-can = Hardly any of this photo can be measured. Take it again, or draw an area where pores are sharp.
found-unusable-and-left-out-hatched = Found unusable and left out, hatched on the photo. Untick what is to be measured anyway.
ticked-left-out-not-ticked-measured = Ticked: left out. Not ticked: measured like the rest

## Step 4, Pores

corrections-by-hand =
    { $count ->
        [one] 1 correction by hand
       *[other] { $count } corrections by hand
    }
select = Select
click-a-pore-to-see-its = Click a pore to see its figures and to work on it; with Ctrl one more
add = Add
click-a-hollow-that-was-not-seen = Click a hollow that was not seen: what is dark about that place becomes a pore
draw = Draw
drag-once-around-a-pore-or-click = Drag once around a pore, or click its outline corner by corner
split = Split
drag-a-stroke-right-across-a-pore = Drag a stroke right across a pore that is two
take-away = Delete
join = Join
drag-from-one-pore-to-a = Drag from one pore to a neighbour that is part of it
click-what-was-taken-for-a = Click what was taken for a pore and is none
starting = Starting
no-area-is-drawn-the-whole-photo = No area is drawn: the whole photo will be measured, background included.
no-area-is-drawn-the-whole = No area is drawn: the whole photo will be measured, card and background included.
measure-again = Measure again
measure = Measure
find-and-measure-the-pores-in = Find and measure the pores in the area ({ $shortcut })
correct-by-hand = Correct by hand
by-keyboard-p-arrow-keys-enter-at = By keyboard: P, arrow keys, Enter at each place.
working-the-corrections-in = Working the corrections in …
walls-that-part-pores = Walls that part pores
left-faint-walls-part-pores-too = Left: faint walls part pores too. Right: only high walls do
usual = Usual
take-walls-as-usual-accuracy-was = Take walls as usual; accuracy was proved for that only
as-usual = As usual
walls-from-a-height-on = From { $multiple } times the usual height on
pores-selected = { $count } selected
delete-selected = Delete selected
there-is-no-pore-here-delete = There is no pore here (Delete)
join-selected = Join selected
these-are-one-pore = These are one pore
take-away-correction = Take away correction { $number }
take-this-correction-away = Take this correction away
nothing-there-to-act-on = { $correction }: nothing there to act on
take-all-away = Take all away
pores-as-they-were-found-undo = Pores as they were found; Undo brings the corrections back
counted = counted
not-counted-at-the-edge-or = not counted: at the edge, or no pore

## Step 5, Record

files-of-the-book = Files of the book
files-of-the-findings = Files of the findings
another-book = Another book
voucher-book = Voucher book
a-book-is-a-folder-of = A book is a folder of vouchers, which you can copy and share. Findings attached to a voucher stay with it.
read-this-book-anew = Read this book anew
shows-what-others-have-changed-in = Shows what others have changed in it since
new-voucher = New voucher
pick-a-voucher = Pick a voucher
no-voucher-is-picked-sentence = No voucher is picked.
new = , new
attach-these-findings = Attach these findings
keeps-all-figures-scale-and-area = Keeps all figures, scale and area with the voucher, and saves it
copy-the-photo-into-the-book = Copy the photo into the book
otherwise-the-book-only-tells-where = Otherwise the book only tells where the photo lies
measured-by = Measured by
your-name = your name
compare-with-published-ranges = Compare with published ranges
which-published-figures-the-findings-agree = Which published figures the findings agree with, and which they speak against
measure-or-pick-a-voucher = Measure, or pick a voucher
open-a-book = Open a book…
open-the-demo-book = Open the demo book
an-invented-book-in-a-folder = An invented book in a folder of its own, to try all this on
or-type-its-folder = Or type its folder
open-this-book = Open this book
type-a-folder-first = Type a folder first
make-a-new-book = Make a new book
name-of-the-book = Name of the book
such-as-alder-fen-foray-group = such as Alder Fen Foray Group
folder-to-make-it-in = Folder to make it in
catalogue-numbers = Catalogue numbers
year-stands-for-the-year-of = {"{"}year{"}"} stands for the year of the find, {"{"}number:4{"}"} counts up in four digits.
make-the-book = Make the book
fill-in-name-folder-and-numbers = Fill in name, folder and numbers first

## Saving files

save-findings-json = Save findings (JSON)…
all-figures-with-intervals-notes-and = All figures with intervals, notes and settings, for scripts and for the record
save-pores-csv = Save pores (CSV)…
one-line-per-pore-with-its = One line per pore with its place and its measures, for a spreadsheet
save-overlay-png = Save overlay (PNG)…
a-copy-of-the-photo-with = A copy of the photo with the outlines drawn on it: the evidence to show
save-corrections-json = Save corrections (JSON)…
what-was-corrected-by-hand-for = What was corrected by hand, for `poreline measure --corrections` to correct it again
save-report-pdf = Report (PDF)…
on-the-voucher-that-is-picked = On the voucher that is picked: photos with what was counted, figures, published ranges and the record, to print or to send
save-report-html = Report (HTML)…
the-same-as-one-page-for = The same as one page for a browser
save-labels-pdf = Labels (PDF)…
one-label-for-each-voucher-in = One label for each voucher in the list, to print and cut out
save-table-csv = Table (CSV)…
one-line-per-voucher-for-a = One line per voucher, for a spreadsheet
save-darwin-core-zip = Darwin Core (ZIP)…
a-darwin-core-archive-of-all = A Darwin Core Archive of all vouchers with their measurements, for a collection or a portal
walks-and-checklists-csv = Walks and checklists (CSV)…
one-line-per-sighting-for-a = One line per sighting, for a spreadsheet
charts-by-month-pdf = Charts by month (PDF)…
on-which-share-of-each-months = On which share of each month’s walks each taxon was met
findings-json = Findings (JSON)
pores-csv = Pores (CSV)
overlay-png = Overlay (PNG)
corrections-json = Corrections (JSON)
pick-a-voucher-first = Pick a voucher first
places-in-these-files = Places in these files
without-a-file-dialog = Without a file dialog
report-pdf = Report (PDF)
report-html = Report (HTML)
labels-pdf = Labels (PDF)
table-csv = Table (CSV)
darwin-core-zip = Darwin Core (ZIP)
walks-csv = Walks (CSV)
months-pdf = Months (PDF)
as-recorded = as recorded
only-to-a-cell-of-0 = only to a cell of 0.1°
the-country-only = the country only
folder-to-save-in = Folder to save in
save-into-this-folder-asks-before = Save into this folder; asks before a file is replaced

## The photo

photo-straightened = { $name }, straightened
photo-with-outlines = Photo { $name }, { $count } outlined
photo-so-named = Photo { $name }
a-place-is-framed = { $photo }; a place is framed

## Under the photo

show-outlines = Show outlines
outlines-of-what-was-found-solid = Outlines of what was found: solid where counted, dashed where not
turned-by = , turned { $degrees }°
zoom-out = Zoom out
zoom-in = Zoom in
fit = Fit
show-all-of-the-photo = Show all of the photo
one-photo-pixel-per-screen-pixel = One photo pixel per screen pixel

## Looks of the photo

view = View
turn-the-photo-or-show-it = Turn the photo, or show it brighter. What is measured stays the same
for-looking-only-what-is-measured = For looking only: what is measured stays the same.
loupe = Loupe
enlarges-the-place-where-an-end = Enlarges the place where an end or a corner is being set (L)
scale-bar = Scale bar
a-bar-of-a-round-length = A bar of a round length in the corner, once there is a scale
brightness = Brightness
contrast = Contrast
half-without = Half without
shows-the-photo-without-outlines-left = Shows the photo without outlines left of a line that can be moved (W)
show-the-outlines-first = Show the outlines first
brightness-changed-for-looking-only = Brightness changed for looking only
reset-brightness = Reset brightness
shows-the-photos-own-brightness-and = Shows the photo's own brightness and contrast
turn-left = Turn left
a-quarter-turn-against-the-clock = A quarter turn against the clock (Shift+R)
turn-right = Turn right
a-quarter-turn-with-the-clock = A quarter turn with the clock (R)
upright = Upright
shows-the-photo-as-it-lies = Shows the photo as it lies in its file
turn = Turn
turns-the-photo-on-the-screen = Turns the photo on the screen; the file stays as it is

## What to do on the photo

wheel-zooms-dragging-moves-the-photo = Wheel zooms, dragging moves the photo
click-one-end-of-the-ruler = Click one end of the ruler or bar; Alt keeps off edges. Dragging moves the photo
click-the-other-end-alt-keeps = Click the other end; Alt keeps off edges. Dragging moves the photo
click-the-stroke-that-is-the = Click the stroke that is the scale bar
click-where-the-line-ends-esc = Click where the line ends. Esc cancels
drag-along-the-edge-that-the = Drag along the edge that the ruler's ticks stand on
click-a-corner-of-the-rectangle = Click a corner of the rectangle. Dragging moves the photo
click-the-next-corner-going-round = Click the next corner, going round. Dragging moves the photo
click-the-opposite-corner-esc-cancels = Click the opposite corner. Esc cancels
drag-a-rectangle-over-something-white = Drag a rectangle over something white. Esc cancels
drag-from-corner-to-corner = Drag from corner to corner
click-the-first-corner = Click the first corner
drag-once-around-what-is-to = Drag once around what is to be measured
drag-a-rectangle-or-click-corner = Drag a rectangle, or click corner by corner
click-a-pore-to-select-it = Click a pore to select it, with Ctrl one more. Dragging moves the photo
click-a-hollow-that-was-not = Click a hollow that was not seen. Dragging moves the photo
click-what-is-no-pore-dragging = Click what is no pore. Dragging moves the photo
click-the-pore-to-join-it = Click the pore to join it with. Esc cancels
drag-from-one-pore-to-its = Drag from one pore to its neighbour, or click both
click-where-the-stroke-ends-esc = Click where the stroke ends. Esc cancels
drag-a-stroke-right-across-a = Drag a stroke right across a pore, or click both its ends
click-corners-enter-closes-esc-cancels = Click corners. Enter closes, Esc cancels
drag-once-around-a-pore-or = Drag once around a pore, or click corner by corner

## Handles on the photo

scale-line-first-end = Scale line, first end
scale-line-second-end = Scale line, second end
line-along-the-ruler-first-end = Line along the ruler, first end
line-along-the-ruler-second-end = Line along the ruler, second end
corner-of-the-rectangle = Rectangle, corner { $number }
corner-of-the-area = Area, corner { $number }
corner-of-a-left-out-part = Left out part { $part }, corner { $number }
drag-it-with-alt-freely-or = Drag it, with Alt freely, or move it with the arrow keys by 1 px, with Shift by 0.1 px. Enter puts it on the nearest edge
drag-it-or-move-it-with-the = Drag it, or move it with the arrow keys by 1 px, with Shift by 0.1 px. Delete or a right click takes it away, Insert adds one after it
drag-it-or-move-it-with = Drag it, or move it with the arrow keys by 1 px, with Shift by 0.1 px

## Corners

click-to-add-a-corner-here = Click to add a corner here, or pull it to where it is to be

## Divider

left-of-it-the-photo-without = Left of it the photo without outlines. Drag it, or move it with the arrow keys
divider-per-cent-of-the-width = Divider, per cent of the width

## Colouring of outlines

counted-or-not = Counted or not
colour-by = Colour by
what-the-colours-mean = { $measure }: dark blue is { $low } or less, pale yellow { $high } or more. Nine tenths of the pores lie between

## Marks of the scale

white = white
side-width = width
side-height = height

## Scale bar on the screen

scale-bar-of = Scale bar of { $length }
how-long-this-bar-is = This bar is { $length } long on the fungus

## Findings

a-measurement-agrees-with-or-speaks = A measurement agrees with or speaks against published figures; it does not name a species. Never eat or dose on the strength of it; ask an expert.
findings = Findings
measuring-the-findings-will-stand-here = Measuring. The findings will stand here.
once-the-photo-is-measured-this = Once the photo is measured, this is where you read what kind of surface it is, how many pores there are per mm, how wide they are, how sure each figure is, and what to watch out for.
surface-and-sureness = { $surface } surface, { $sureness }
how-sure-the-kind-of-surface = How sure the kind of surface is, from 0 to 1; the reasons stand below.
the-figures-are-withheld-the-notes = The figures are withheld; the notes say why
no-count-on-this-kind-of = No count on this kind of surface
why-this-kind = Why { $kind }
figures = Figures
copy-as-text = Copy as text
copies-all-findings-in-words = Copies all findings in words
copy-as-table = Copy as table
copies-the-figures-to-be-pasted = Copies the figures, to be pasted into a spreadsheet
what-the-uncertainty-is-made-of = What the uncertainty is made of
copy = Copy
copies-the-phrase = Copies the phrase
copy-the-phrase = Copy the phrase
within-interval = 95 % interval { $interval }
what-do-these-mean = What do these mean?
parts-of-the-uncertainty-of = Parts of the uncertainty of { $figure }: { $parts }
withheld = Withheld
caution = Caution
good-to-know = Good to know
show-me = Show me
shows-on-the-photo-where-this = Shows on the photo where this is seen best

## Charts

measure-of-pores = { $measure } of pores
which-way-pores-are-drawn-out = Which way pores are drawn out
too-round-to-point-anywhere = { $count } more are too round to point anywhere
pores-along-lines-of-1-mm = Pores along lines of 1 mm
press-a-bar-to-select-its = Press a bar to select its pores on the photo, with Ctrl to add them. By keyboard: arrow keys, Enter.
table-of-pores = Table of pores
histogram-of = Histogram of { $measure }
pores-on-lines = { $pores } pores on { $lines }
all-lines-of-1-mm = Of { $all } lines of 1 mm: { $counts }
histogram-class-in-full = { $histogram }: { $count } pores of { $class }
histogram-class = { $count } pores of { $class }
rose-of-directions = Rose of directions
sorts-by-this = Sorts by this
pore-in-the-table = Pore { $number }, diameter { $diameter }, elongation { $elongation }
hollows = Hollows
walls = Walls
network-in-words = { $network } The largest piece of each is dark.
network-picture = { $phase } of a piece of the surface. { $network }

## Strip of photos

dragged-to-a-voucher = { $photo } to a voucher of the book
photo-of-the-strip =
    { $path }
    { $standing }{ $told }
    Click to work on it. Drag it onto a voucher in the book to attach its findings. Delete takes it out of the strip; the file stays
not-saved = not saved
scale-for-all = Scale for all
gives-this-photos-scale-to-all = Gives this photo's scale to all other photos, as a set-up would
area-for-all = Area for all
gives-the-outline-of-this-photos = Gives the outline of this photo's area to all other photos

## Views of the last step

photo = Photo
voucher = Voucher
published-ranges = Published ranges
book = Book
walks = Walks

## List of vouchers

no-book-is-open = No book is open
open-one-on-the-left-or = Open one on the left, or make a new one.
find-in-the-book = Find
number-name-place-person = number, name, place, person
vouchers-shown = { $shown } of { $all } vouchers
check-the-book = Check the book
looks-for-dates-and-places-that = Looks for dates and places that cannot be, photos that changed, numbers given twice
double-click-or-enter-on-a = Double click, or Enter on a row, opens its photo again with its findings.
things-to-look-at =
    { $count ->
        [0] Nothing is wrong in the book
        [one] One thing to look at
       *[other] { $count } things to look at
    }
hide = Hide
fill-in-this-voucher = Fill in this voucher
fill-in = Fill in
shows-the-voucher-that-is-picked = Shows the voucher that is picked
open-its-photo = Open its photo
no-photo-of-it-was-measured = No photo of it was measured
rising = , rising
falling = , falling
sort-by-column = Sort by { $column }{ $order }
the-book-has-no-voucher-yet = The book has no voucher yet. Press New voucher on the left.
no-voucher-holds-all-of-these = No voucher holds all of these words.

## Voucher

no-voucher-is-picked = No voucher is picked
pick-one-in-the-book-or = Pick one in the book, or press New voucher on the left.
found = Found
specimen = Specimen
name-and-notes = Name and notes
more-about-the-specimen = More about the specimen
new-not-saved-yet = new, not saved yet
changed-not-saved-yet = changed, not saved yet
saved = saved
save-voucher = Save voucher
drop-changes = Drop changes
from-the-photos-file = from the photo’s file
take-date-and-place-from-the = Take date and place from the photo
fills-in-what-the-photos-file = Fills in what the photo’s file says, where nothing stands yet
no-photo-is-open = No photo is open
blur-the-place-to-0-1 = Blur the place to 0.1°
for-rare-finds-tells-only-in = For rare finds: tells only in which cell of 0.1° by 0.1° it was found, about 11 km from south to north
there-are-no-coordinates = There are no coordinates
coordinates-are-those-of-phones-and = Coordinates are those of phones and GPS receivers (WGS 84). They go wherever the book goes.
photos-and-measurements = Photos and measurements
pooled-together = Together { $pooled }
none-yet-attach-these-findings-on = None yet. Attach these findings, on the left, adds the photo that is open.
names-it-had-before = Names it had before
name-before-that = before that { $names }
open-photo-again = Open { $photo } again
opens-the-photo-with-its-scale = Opens the photo with its scale and area, and measures it again
its-findings-do-not-tell-scale = Its findings do not tell scale and area
take-photo-off = Take { $photo } off
takes-the-photo-and-what-was = Takes the photo and what was measured on it off this voucher, once you save it. The photo itself stays

## Published ranges

nothing-to-compare-yet = Nothing to compare yet
measure-a-photo-or-pick-a = Measure a photo, or pick a voucher that has findings, host wood, colour or cap width. Then press Compare with published ranges on the left.
what-agrees-with-it-and-what = What agrees with it, and what speaks against
more-taxa-agree-in-less = { $count } more taxa in the table agree in less, or have more against them.
several-taxa-can-agree = { $cautions } Several taxa can agree with all that was seen, and none of them need be right: the table is far from complete, and what it lacks cannot agree.
to-tell-two-apart = To tell { $first } and { $second } apart, look next at
the-table-says-the-same-of = The table says the same of both; ask an expert.
character-as-seen = { $character }: seen { $seen }
as-printed = printed { $range }

## Walks

the-book-is-being-read-or = The book is being read or written
a-new-walk = A new walk
date-of-the-walk = Date of the walk
such-as-2026-10-04 = such as 2026-10-04
place-of-the-walk = Place of the walk
in-words = in words
how-many-walked = How many walked
such-as-7 = such as 7
add-the-walk = Add the walk
walks-of-the-book =
    { $count ->
        [0] No walk yet
        [one] One walk
       *[other] { $count } walks
    }
people-on-the-walk = , { $count } people
sightings-on-the-walk =
    { $count ->
        [0] nothing seen
        [one] 1 sighting
       *[other] { $count } sightings
    }
seen-on-walk = Seen on { $walk }
nothing-yet = Nothing yet.
kept-as-voucher = voucher { $number }
also-seen = Also seen
such-as-stereum-hirsutum = such as Stereum hirsutum
voucher-of-it = Voucher of it
its-number = its number
add-to-the-checklist = Add to the checklist
how-often-each-taxon-was-met = How often each taxon was met
share-of-all-walks-with-wilsons = Share of all walks, with Wilson’s 95 % interval, and walks on which it was met of those made, by month.
taxon = Taxon
share-of-walks = Share of walks
column-first-to-last = First to last
walks-met-of-all = { $met } of { $all }
first-to-last-date = { $first } to { $last }

## Sheets over the window

a-file-of-that-name-is = A file of that name is already there
a-set-up-of-that-name = A set-up of that name is already there
photos-measured-by-the-old-one = Photos measured by the old one keep their figures.
replace-it = Replace it
the-findings-are-not-saved = The findings are not saved
closing-the-photo = Closing the photo
closing-the-window = Closing the window
would-lose-what-was-measured = { $doing } would lose what was measured on { $photos }.
go-back-and-save-them = Go back and save them
discard-all = Discard all
they-cannot-be-saved-now = They cannot be saved now: { $why }.
this-photo-belongs-to-another-voucher = This photo belongs to { $number } already
attach-only-if-both-are-shown = Attach its findings to { $this } as well only if it shows both specimens. Otherwise pick { $other }, or another photo.
attach-to-this-too = Attach to { $this } too
poreline-did-not-come-to-its = Poreline did not come to its end last time
this-was-open-with-everything-that = This was open, with everything that was set and corrected:
photos-that-were-measured-are-measured = Photos that were measured are measured again, with the same result.
go-on-where-it-stopped = Go on where it stopped
drop-it = Drop it
the-voucher-is-not-saved = The voucher is not saved
closing-the-window-would-lose = Closing the window would lose
this-drops = This drops
going-on-would-lose = Going on would lose
would-lose-what-you-typed = { $doing } what you typed into { $number } since it was saved.
save-first = Save first
discard = Discard
cancel = Cancel
voucher-changed-by-somebody-else = { $number } was changed by somebody else
since-you-began-another-window-or-person = Since you began, another window or person saved this voucher. Nothing was overwritten. Both of you changed these fields:
since-you-began-another-window-or = Since you began, another window or person saved this voucher. Nothing was overwritten, and you changed different things, so that both fit together.
field = Field
yours = Yours
theirs = Theirs
put-together-yours-in-these-fields = Put together, yours in these fields
put-together = Put together
put-together-theirs-in-these-fields = Put together, theirs in these fields
keep-both = Keep both
theirs-stays-as-it-is-yours = Theirs stays as it is; yours becomes a voucher with the next number
go-on-typing = Go on typing
shortcuts = Shortcuts

## Messages

dismiss = Dismiss
not-done = Not done
let-go-to-open-the-photo = Let go to open the photo

## Finder

what-do-you-want-to-do = What do you want to do?
for-example-scale-bar-measure-dark = for example: scale bar, measure, dark
nothing-goes-by-these-words = Nothing goes by these words.
go-to-photo = Go to { $photo }
photo-strip = photo strip
this-is-the-photo-that-is = This is the photo that is shown
open-recent-photo = Open { $photo }
recent-photo = recent photo
it-is-not-there-any-more = It is not there any more
opened-before = opened before
arrow-keys-choose-enter-does-it = Arrow keys choose, Enter does it, Esc closes.

## What can be done by name; `words` are other words that it may be looked for by

do-find-what-to-do = Find what to do
    .words = finder command search
do-open-photos = Open photos
    .words = file picture image load
do-next-photo = Next photo
    .words = strip forward
do-photo-before = Photo before
    .words = previous strip back
do-take-this-photo-out-of-the = Take this photo out of the strip
    .words = close remove
do-go-to-step-1-photo = Go to step 1, Photo
    .words = open
do-go-to-step-2-scale = Go to step 2, Scale
    .words = millimetre
do-go-to-step-3-area = Go to step 3, Area
    .words = outline region
do-go-to-step-4-pores = Go to step 4, Pores
    .words = count teeth
do-go-to-step-5-record = Go to step 5, Record
    .words = voucher book
do-measure = Measure
    .words = count pores teeth start run
do-measure-a-folder = Measure a folder of photos
    .words = batch many all series
do-stop-what-is-under-way = Stop what is under way
    .words = cancel abort
do-save = Save
    .words = findings voucher keep write
do-save-the-findings-without-a-file = Save the findings without a file dialog
    .words = beside photo folder
do-save-the-table-of-pores = Save the table of pores
    .words = csv spreadsheet export
do-save-the-picture-with-outlines-and = Save the picture with outlines and scale bar
    .words = overlay png slide export
do-undo = Undo
    .words = take back
do-redo = Redo
    .words = do again
do-scale-from-two-points = Scale from two points
    .words = click line
do-scale-from-a-scale-bar = Scale from a scale bar
    .words = find
do-scale-from-a-ruler = Scale from a ruler
    .words = ticks millimetre inch
do-scale-from-the-scale-card = Scale from the scale card
    .words = tilt straighten
do-scale-from-the-corners-of-a = Scale from the corners of a rectangle
    .words = tilt straighten
do-scale-from-a-saved-set-up = Scale from a saved set-up
    .words = camera stand
do-scale-from-what-the-file-says = Scale from what the file says
    .words = tiff resolution
do-type-the-scale = Type the scale
    .words = number pixels
do-mark-something-white = Mark something white
    .words = colour balance paper
do-give-this-photos-scale-to-all = Give this photo's scale to all photos
    .words = carry over strip
do-give-this-photos-area-to-all = Give this photo's area to all photos
    .words = carry over strip outline
do-measure-the-whole-photo = Measure the whole photo
    .words = clear outline area
do-leave-nothing-out = Leave nothing out
    .words = clear holes area
do-take-all-corrections-away = Take all corrections away
    .words = clear pores
do-open-a-book = Open a book
    .words = vouchers folder
do-open-the-demo-book = Open the demo book
    .words = example try vouchers
do-show-the-book = Show the book
    .words = list vouchers find
do-show-the-walks = Show the walks
    .words = foray frequency season
do-new-voucher = New voucher
    .words = specimen record
do-attach-these-findings-to-the-voucher = Attach these findings to the voucher
    .words = keep record book
do-compare-with-published-ranges = Compare with published ranges
    .words = handbook taxa species
do-check-the-book = Check the book
    .words = errors wrong
do-show-the-photo = Show the photo
    .words = canvas picture
do-show-all-of-the-photo = Show all of the photo
    .words = fit zoom whole
do-turn-the-photo-right = Turn the photo right
    .words = rotate clockwise
do-turn-the-photo-left = Turn the photo left
    .words = rotate anticlockwise
do-turn-the-photo-upright = Turn the photo upright
    .words = rotate straight
do-show-outlines-or-not = Show outlines or not
    .words = hide overlay
do-show-half-without-outlines = Show half without outlines, or all
    .words = divider compare before after
do-show-the-loupe-or-not = Show the loupe or not
    .words = magnify enlarge
do-show-the-scale-bar-or-not = Show the scale bar or not
    .words = hide length
do-words-of-the-trade = Words of the trade
    .words = glossary terms meaning pore wall tooth phrase interval
do-preferences = Preferences
    .words = settings options text size language
do-larger-text = Larger text
    .words = bigger zoom size eyes
do-smaller-text = Smaller text
    .words = zoom size
do-light-colours = Light colours
    .words = appearance theme bright
do-dark-colours = Dark colours
    .words = appearance theme night
do-colours-as-the-system-has-them = Colours as the system has them
    .words = appearance theme
do-measure-a-sample-photo-step-by = Measure a sample photo, step by step
    .words = guide help learn tutorial first
do-shortcuts = Shortcuts
    .words = keys keyboard help

## Why something cannot be done

nothing-is-outlined-yet = Nothing is outlined yet
nothing-was-corrected = Nothing was corrected
nothing-was-taken-back = Nothing was taken back
there-is-nothing-to-take-back = There is nothing to take back
nothing-is-under-way = Nothing is under way
there-is-no-other-photo-on = There is no other photo on that side

## Shortcuts on the photo

arrow-keys-enter = Arrow keys, Enter
on-the-photo-move-the-crosshair = On the photo: move the crosshair, set a point; with Shift by 1 px
enter-backspace-esc = Enter, Backspace, Esc
close-an-outline-drop-its-last = Close an outline, drop its last corner, drop all of it
delete = Delete
in-step-pores-delete-the-pores = In step Pores: delete the pores that are selected
wheel = +, −, wheel
zoom-in-zoom-out-0-for = Zoom in, zoom out; 0 for one photo pixel per screen pixel
held-an-end-of-the-scale = Held: an end of the scale line stays off edges
enter = Enter
on-an-end-of-the-scale = On an end of the scale line: put it on the nearest edge
insert-delete = Insert, Delete
on-a-corner-of-the-area = On a corner of the area: add one after it, take it away
middle-or-right-drag = Middle or right drag
move-the-photo-at-any-step = Move the photo, at any step; also dragging with Space held
redo = Redo
undo = Undo

## Guide

at-the-lower-right-of-the = At the lower right of the photo lies a printed bar. Click its left end, then its right end. Turn the wheel to see them larger.
by-keyboard-p-then-arrow-keys = By keyboard: P, then arrow keys and Enter for each end.
type-on-the-left-how-long = Type on the left how long the bar is: 2 mm. Now Poreline knows how many pixels make a millimetre.
by-keyboard-tab-leads-to-the = By keyboard: Tab leads to the field.
go-on-to-step-3-area = Go on to step 3, Area, and drag a rectangle over clean pores, from one corner to the other, away from the bar.
by-keyboard-3-then-p-arrow = By keyboard: 3, then P, arrow keys, and Enter for each corner.
go-on-to-step-4-pores = Go on to step 4, Pores, and press Measure. It takes a few seconds.
by-keyboard-ctrl-m = By keyboard: Ctrl+M.
on-the-right-stands-what-a = On the right stands what a handbook would print: how many pores lie in a millimetre along a row, mostly, and in brackets how few or many there are in places. Below it is how sure each figure is: 95 of 100 such ranges hold the true figure.
each-outline-on-the-photo-is = Each outline on the photo is a pore that was counted. Point at one to read its size, and click it. Wrong ones can be joined, split or deleted here.
step-5-record-keeps-the-findings = Step 5, Record, keeps the findings: attach them to a voucher of your book, compare them with published ranges, or save them as files. Then open a photo of your own. Poreline measures; it never says what a fungus is, nor that it may be eaten.
guide-step = Guide, { $number } of { $all }
next = Next
done = Done
leave-the-guide = Leave the guide
ctrl-k-and-sample-begin-it = Ctrl+K and “sample” begin it again
show-step-5 = Show step 5

## Words of the trade

pore = Pore
the-mouth-of-one-tube-on = The mouth of one tube on the underside, seen from below: a hollow closed all round by wall.
what-is-dark-the-inside-of = What is dark: the inside of tubes, the gaps between gills or teeth.
what-is-bright-the-tissue-between = What is bright: the tissue between hollows.
tooth = Tooth
a-piece-of-wall-with-hollow = A piece of wall with hollow all round it, where walls broke up.
the-kinds-of-underside-poroid-hollows = The kinds of underside. Poroid: hollows closed off from one another. Toothed: walls closed off from one another. Gilled: neither, and running one way. Maze-like: neither, and running every way. Smooth: no hollows that can be seen.
how-far-it-is-from-the = How far it is from the centre of one pore to that of the next along a row.
how-many-pores-lie-in-a = How many pores lie in a millimetre along a row of closely packed pores, as one counts them beside a ruler.
count-line = Count line
a-line-of-one-millimetre-laid = A line of one millimetre laid on the surface at random, along which pores are counted as a person would.
per-mm-most-count-lines-hold = “(3–)4–5(–6) per mm”: most count lines hold 4 or 5 pores, a few 3 or 6. Where fewer than about one pore lies in a millimetre it gives their widths instead. It tells how much places differ, not how sure the mean is.
the-range-that-is-to-hold = The range that is to hold the true figure in 95 of 100 such measurings. It grows where few pores were seen, where the scale is unsure and where edges are not sharp.
of-the-circle-that-is-as = Of the circle that is as large as the pore.
feret-width = Feret width
what-a-calliper-laid-across-the = What a calliper laid across the pore would read: the least and the greatest of it.
elongation = Elongation
how-many-times-as-long-as = How many times as long as wide: 1 is round. Where the middle pore is above 1.5, pores are counted along and across as well.
which-part-of-the-surface-is = Which part of the surface is hollow and not wall.
a-kept-specimen-with-its-record = A kept specimen with its record, so that somebody else can look again and disagree.
cf-aff = cf., aff.
before-a-species-name-cf-to = Before a species name: cf., to be compared with, is near it but not settled; aff., akin to, is near it and something else.
poroid-toothed-gilled-maze-like-smooth = Poroid, toothed, gilled, maze-like, smooth
pores-per-mm = Pores per mm
handbook-phrase = Handbook phrase
interval-of-95-per-cent = 95 % interval
diameter-nine-in-ten = Diameter, nine in ten
diameter = Diameter
hollow-share = Hollow share
hollow-void = Hollow, void
spacing-second-opinion = Spacing, second opinion
spacing = Spacing
wall-thickness = Wall thickness
wall-dissepiment = Wall, dissepiment
words-of-the-trade = Words of the trade

## Preferences

as-the-system-speaks = As the system
language = Language
preferences = Preferences
text-size = Text size
colours = Colours
movement = Movement
nothing-moves-by-itself = Nothing moves by itself
kept-from-one-start-to-the = Kept from one start to the next, with the size of the window and the folders used last.
close = Close

## File dialogs

open-photos = Open photos
photos = Photos
all-files = All files
open-a-book-choose-its-folder = Open a book: choose its folder
save = Save
choose-a-folder-of-photos = Choose a folder of photos

## What is missing

title-of-photo-and-findings = Poreline – { $photo } – { $findings }
open-a-photo-first = Open a photo first
something-is-asked-about-the-scale = Something is asked about the scale. Answer in step 2, Scale
the-scale-is-gone-set-it = The scale is gone. Set it again
corrections-are-worked-in = Working the corrections in
working-out-the-figures-anew = Working out the figures anew
working-out-the-figures-at-the = Working out the figures at the new scale
the-picture-has-changed-since-measure = The picture has changed since. Measure again
the-area-has-changed-since-measure = The area has changed since. Measure again
wait-until-the-present-work-is = Wait until the present work is done, or cancel it
measure-first = Measure first
saved-to = Saved to { $path }
the-file-was-not-saved = The file was not saved ({ $error }); close other programs and try again
that-outline-crosses-itself-or-encloses = That outline crosses itself or encloses nothing. Draw it again, going once around
title-of-photo = Poreline – { $photo }

## Carrying scale and area over

not-carried-over-to = { $what } not carried over to { $photos }, which are of another size than the photo it was drawn on
carried-over-to-other-photos =
    { $what } carried over to { $count } other { $count ->
        [one] photo
       *[other] photos
    }
scale-as-on-photo = as on { $photo }
the-area-was-not-carried-over = The area was not carried over: this photo is of another size than the one it was drawn on
open-more-photos-first = Open more photos first
the-area-lies-on-a-straightened = The area lies on a straightened picture, and each photo is straightened otherwise
draw-an-area-first = Draw an area first
what-is-written-of-this-photos = What is written of this photo's scale holds for this photo only; set the scale in another way
set-the-scale-first = Set the scale first
scale = Scale
area = Area

## Corrections

correction-in-words = { $number }: { $done } at { $x }, { $y } px
corrections-left-behind =
    { $count ->
        [one] One correction by hand lies
       *[other] { $count } corrections by hand lie
    } beyond what the straightened picture shows, and was left behind. Undo brings everything back

## Histograms

number = Number

## The area in words

outline-and-parts-left-out =
    { $outline }, { $count ->
        [one] one part left out
       *[other] { $count } parts left out
    }
the-whole-photo = The whole photo
a-rectangle-of = A rectangle of { $width } × { $height } px
an-outline-with-corners = An outline with { $count } corners

## Photos of the strip

not-opened-yet = not opened yet
cannot-be-read = cannot be read
needs-its-scale = needs its scale
can-be-measured = can be measured
measured-not-saved = measured, not saved
the-sample-photo-could-not-be = The sample photo could not be written to { $folder } ({ $error }); make room on the disk and try again
this-is-not-the-photo-as = This is not the photo as it was: the file has changed since. Set scale and area anew

## Work under way

poreline-met-a-fault-of-its = Poreline met a fault of its own and stopped this piece of work. Your photo is unharmed; please send it to us with a bug report

## Pieces of hollow and wall

pieces-of-a-phase =
    { $count ->
        [one] one piece
       *[other] { $count } pieces, the largest of which holds { $per_cent } %
    }
hollows-and-walls = Hollows: { $hollows }. Walls: { $walls }.

## One pore

not-counted-far-too-large = Not counted: far too large
not-counted-at-the-edge = Not counted: at the edge
counted-pore = Counted
counted-but-cut-not-in-mean = Counted, but cut: not in mean sizes
shaped-by-hand = , shaped by hand
of-the-median = Of the median
times-the-median = { $times } times

## Colours

as-the-system = As the system
light = Light
dark = Dark

## Figures and what they mean

count-headline-95-per-cent-interval =
    Count{"\u0009"}{ $headline }{"\u0009"}95 % interval { $interval }
    {""}
nothing-is-outlined-hollows-of-a = Nothing is outlined: hollows of a maze run into one another, so none is counted by itself. Random lines were laid across them instead.
nothing-is-outlined-gills-run-on = Nothing is outlined: gills run on beyond the photo, so none is counted by itself. Random lines were laid across them instead.
scale-and-how = { $figure } px per mm, { $how }
as-typed-in = as typed in
from-two-points = from two points
from-ruler-marks = from ruler marks
from-the-scale-bar = from the scale bar
from-the-scale-card = from the scale card
from-four-corners = from four corners
from-a-set-up = from a set-up
as-the-file-says = as the file says
what-is-in-the-interval =
    the unevenness from place to place { $scale ->
        [exact] is in it; the scale is taken as exact
       *[unsure] and the uncertainty of the scale are in it
    }
the-interval-in-a-sentence =
    { $kind ->
        [maze-like] Roughly between { $low } and { $high } { $things } per mm: { $within }. On drawn mazes such an interval held the truth four times in five.
        [gilled] Roughly between { $low } and { $high } { $things } per mm: { $within }. How often such an interval of gills holds the truth was not tested.
       *[other] With 95 % confidence the surface has between { $low } and { $high } { $things } per mm: { $within }.
    }
things-per-mm = { $things } per mm
not-known = not known
the-photo-does-not-say = the photo does not say
very-likely = very likely
likely = likely
rather-likely = rather likely
doubtful = doubtful
sureness-of-1 = { $word } ({ $share } of 1)
things-counted-per-mm = { $figure } { $things } per mm
so-many-per-mm = { $figure } per mm
pores = pores
teeth = teeth
gills = gills
hollows-counted = hollows
as-a-handbook-would-print-it-how = As a handbook would print it: how the pores' widths spread. It is no interval of a mean.
as-a-handbook-would-print-it-rounded = As a handbook would print it, rounded: no 1 mm line fits in the area, so there is no spread.
as-a-handbook-would-print-it = As a handbook would print it: how counts on 1 mm lines spread from line to line. It is no interval; the average over the area stands below with its own.
teeth-counted = Teeth counted
teeth-whose-centre-lies-in-the = Teeth whose centre lies in the measured area, away from the photo's edge.
how-drawn-out-they-are-in = How drawn out they are in the middle of the ranking: 1 is round, 2 is twice as long as wide. Nine in ten lie within the range.
across-along = Across / along
across-and-along-per-mm = { $across } / { $along } per mm
the-pores-are-drawn-out-so = The pores are drawn out, so the count depends on the direction: across them and along them.
mean-width-of-a-pore-the = Mean width of a pore: the diameter of a circle of the same area. The range holds the true mean with 95 % confidence.
median-of = median { $figure }
from-the-5th-to-the-95th = From the 5th to the 95th of 100 pores ranked by size: how much they differ among themselves.
nine-in-ten = nine in ten { $low }–{ $high }
median = median
tissue-between-neighbouring-pores-dissepiment-on = Tissue between neighbouring pores (dissepiment), on the line that joins their centres.
share-of-the-measured-area-that = Share of the measured area that is hollow (void), not wall.
pores-counted = Pores counted
so-many-per-mm2 = { $figure } per mm²
pores-whose-centre-lies-in-the = Pores whose centre lies in the measured area; a strip along the photo's edge is kept out, because pores are cut there.
line-crossings = Line crossings
pores-hit-by-lines-laid-at = Pores hit by lines laid at random. This is lower or higher than the count along a row and is not to be compared with handbooks.
distance-between-neighbouring-pores-from-the = Distance between neighbouring pores from the regularity of the picture alone, without looking at single pores.
by-the-white-patch = by the white patch
by-the-cards-white = by the card's white
indicative-only-no-white = indicative only: no white
with-a-violet-tint = ; { $share } with a violet tint
colour = Colour
mean-colour-of-the-walls-without = Mean colour of the walls, without the hollows, in CIELAB: L* from black to white, a* from green to red, b* from blue to yellow. The word is that of the nearest colour in Poreline's list of names.
area-measured = Area measured
so-much-left-out = { $area } mm² left out
the-part-of-the-surface-that = The part of the surface that was looked at.
pixels-of-the-photo-per-millimetre = Pixels of the photo per millimetre of the fungus, with the standard uncertainty. Every figure in millimetres rests on it.
tilt = Tilt
taken-out = taken out
how-far-the-camera-was-tilted = How far the camera was tilted against the surface. The picture was straightened before measuring.

## The book

another-voucher-of-the-book-bears = Another voucher of the book bears this number

## Opening a photo of a voucher again

this-is-not-the-photo-as-it = This is not the photo as it was measured: the file has changed since. Set scale and area anew
the-photo-was-straightened-by-the = The photo was straightened by the scale card, which is being looked for again. Then press Measure in step 4, Pores
the-photo-was-straightened-by-four = The photo was straightened by four corners. Click them again in step 2, Scale, then measure

## What is compared

with-host-colour-and-cap-of = , with host, colour and cap of { $number }
the-findings-on-photo = The findings on { $photo }{ $with }
all-that-stands-in-voucher = All that stands in { $number }
nothing-compared-yet = Nothing yet

## Agreement

agreement-in-numbers = agrees in { $agrees }, near in { $near }, speaks against in { $against }

## Vouchers changed twice

nothing = nothing
so-many-of-them = { $count } of them

## Fields of a voucher

catalogue-number = Catalogue number
such-as-af-2026-0001 = such as AF-2026-0001
date-found = Date found
found-by = Found by
names-with-between-them = names, with | between them
place = Place
latitude-degrees = Latitude, °
from-90-to-90-such-as = from -90 to 90, such as 52.64
longitude-degrees = Longitude, °
from-180-to-180-such-as = from -180 to 180, such as -1.14
coordinates-hold-within-m = Coordinates hold within, m
more-than-0-such-as-50 = more than 0, such as 50
habitat = Habitat
such-as-alder-carr = such as alder carr
walk = Walk
host-wood = Host wood
host-tree = Host tree
such-as-fagus-sylvatica = such as Fagus sylvatica
grew-from = Grew from
decay-of-the-wood-1-sound = Decay of the wood, 1 sound to 5 crumbling
cap-width-cm = Cap width, cm
more-than-0-such-as-4 = more than 0, such as 4.5
colour-of-the-underside = Colour of the underside
such-as-cream = such as cream
scientific-name = Scientific name
such-as-trametes-hirsuta = such as Trametes hirsuta
doubt-about-the-name = Doubt about the name
named-by = Named by
whoever-gave-the-name = whoever gave the name
reason-for-the-name = Reason for the name
such-as-3-to-4-pores = such as 3 to 4 pores per mm, grey zones
notes = Notes
zones-on-the-cap = Zones on the cap
such-as-narrow-brown-and-grey = such as narrow, brown and grey
hairs-on-the-cap = Hairs on the cap
such-as-velvety = such as velvety
how-the-cap-bends = How the cap bends
such-as-like-leather = such as like leather
smell-when-fresh = Smell when fresh
such-as-anise = such as anise
colour-of-the-spore-print = Colour of the spore print
such-as-white = such as white
where-it-is-kept = Where it is kept
such-as-in-collection = such as in collection
country = Country
two-letters-such-as-gb = two letters, such as GB
measurements = Measurements
date-of-the-name = Date of the name
what-was-done-to-the-place = What was done to the place
datum-of-the-coordinates = Datum of the coordinates

## What is wrong in a field

a-latitude-alone-tells-no-place = A latitude alone tells no place
a-longitude-alone-tells-no-place = A longitude alone tells no place
a-name-can-be-replaced-by = A name can be replaced by another, and stays in the history then
the-name-itself-is-missing = The name itself is missing
every-voucher-has-a-number = Every voucher has a number
a-date-as-year-month-day = A date as year-month-day, { $hint }
a-number-hint = A number { $hint }

## The book on the disk

open-a-book-first = Open a book first
poreline-met-a-fault-of-its-own = Poreline met a fault of its own and stopped. What was on the disk is as it was; please send us a bug report
the-demo-book-could-not-be = The demo book could not be made ({ $error }); make room on the disk and try again
there-is-no-book-in = There is no book in { $folder }. Choose the folder of a book, or make a new one there
there-is-a-book-in = There is a book in { $folder } already; open it, or choose another folder. Nothing was changed
the-catalogue-number-is-taken = The catalogue number { $number } is taken, perhaps by somebody else just now. Read the book anew and take the next one; what you typed is still here
the-book-has-it-no-more = The book has no { $kind } { $name } any more. Read the book anew; what you typed is still here

## Vouchers in words

name = Name
underside = Underside
per-mm = Per mm
kind-of-not-all-photos = { $kind }, not all
a-file-is-damaged = { $file } is damaged and was left as it is: { $why }. Mend it in a text editor, or take it from a copy of the book
pooled-figure =
    { $figure } per mm, 95 % interval { $low }–{ $high }, from { $count ->
        [one] one photo
       *[other] { $count } photos
    }
not-measured = not measured
somebody = somebody
named-on-date = {" "}on { $date }
named-by-whom = { $name }, named by { $by }{ $on }{ $why }
measured-when-by-who = measured { $when } by { $who }
measured-when = measured { $when }
kind-of-surface = { $kind } surface
unknown = unknown

## Files of the book

making-the-file = Making the file
the-list-is-empty-so-there = The list is empty, so there is nothing to print
the-book-has-no-voucher-yet-so = The book has no voucher yet, so there is nothing to save
the-book-states-no-licence-so = The book states no licence, so nobody may use the data; add “license” to book.json
look-whether-notes-and-photos-tell = Look whether notes and photos tell the places all the same
pick-a-voucher-first-and-save = Pick a voucher first, and save it
the-report-goes-without-a-picture = The report goes on without a picture of { $why }
nothing-was-saved = Nothing was saved: { $error }

## What is missing of a walk

type-date-and-place-first = Type date and place first
the-date-is-written-as-year = The date is written as year-month-day, such as 2026-10-04
how-many-walked-is-a-whole = How many walked is a whole number, such as 7
type-a-name-first = Type a name first

## Work on the book

the-book-that-was-open-last = The book that was open last is not in { $folder } any more. Open it from where it is now, in step 5, Record
wait-until-the-book-is-written = Wait until the book is written or read
it-is-saved = It is saved
pick-a-voucher-or-make-a = Pick a voucher or make a new one
opening-the-book = Opening the book
making-the-book = Making the book
making-the-demo-book = Making the demo book
reading-the-book-anew = Reading the book anew
checking-the-book = Checking the book
saving-the-walk = Saving the walk
the-book-cannot-be-reached = The book cannot be reached ({ $error }); close other programs and try again
saved-file = Saved { $file }
saved-voucher = Saved { $number }
pooled-now = {"."} Now { $pooled }
attached-to-voucher = Attached to { $number }{ $together }
mend-the-fields-that-are-marked = Mend the fields that are marked in the voucher. Nothing was saved yet, and what you typed is still there
saving-the-voucher = Saving the voucher
save-the-voucher-that-is-being = Save the voucher that is being filled in, then drag the photo again
nothing-was-attached = Nothing was attached. { $why }, then drag the photo again
nothing-was-attached-photo-belongs = Nothing was attached: this photo belongs to { $number } already. If it shows both specimens, press Attach these findings in step 5
the-file-of-a-voucher-is-damaged = The file of { $number } is damaged on the disk. Mend it in a text editor, or take it from a copy of the book; what you typed is still here
the-two-could-not-be-put = The two could not be put together; what you typed is still here. Read the book anew
which-book-is-open-could-not = Which book is open could not be written down for the next start ({ $error }); open it by hand then
book-and-vouchers =
    { $book }, { $count ->
        [one] one voucher
       *[other] { $count } vouchers
    }
working = working
the-voucher-is-not-saved-yet = The voucher is not saved yet
keep-the-findings = Keep the findings
keep-the-findings-once-they-are = Keep the findings once they are there
saved-save-more-or-open-the = Saved. Save more, or open the next photo
attach-the-findings-to-a-voucher = Attach the findings to a voucher
save-the-findings-to-keep-them = Save the findings to keep them

## What a crash left

what-was-open-when-poreline-ended = What was open when Poreline ended last cannot be read. Its file was set aside as { $file }
voucher-so-numbered = voucher { $number }
what-you-do-now-would-be = What you do now would be lost in a crash ({ $why }). Save findings and vouchers as you go

## Ways to a scale

two-points-on-the-photo = Two points on the photo
ruler = Ruler
scale-card = Scale card
corners-of-a-rectangle = Corners of a rectangle
a-saved-set-up = A saved set-up
what-the-file-says = What the file says
type-pixels-per-millimetre = Type pixels per millimetre
as-it-stands-in-the-book = As it stands in the book
click-both-ends-of-a-length = Click both ends of a length that you know
the-bar-is-found-by-itself = The bar is found by itself; you type how long it is
drag-along-the-rulers-edge-its = Drag along the ruler's edge; its ticks are found by themselves
porelines-own-card-printed-with-poreline = Poreline's own card, printed with `poreline card`, is found by itself, and the tilt of the camera is taken out
click-the-corners-of-a-rectangle = Click the corners of a rectangle that you know, lying on the surface; the tilt of the camera is taken out
the-scale-of-a-photo-by = The scale of a photo by the same camera at the same distance, saved before
microscopes-and-scanners-write-the-scale = Microscopes and scanners write the scale into the file; nobody has checked it
the-number-that-you-know-from = The number that you know from another photo taken the same way
the-scale-by-which-this-photo = The scale by which this photo was measured for its voucher
looking-for-the-scale-bar = Looking for the scale bar
reading-the-ruler = Reading the ruler
looking-for-the-scale-card = Looking for the scale card
straightening-the-photo = Straightening the photo
does-the-set-up-fit-see = Does the set-up fit? See below
is-this-scale-right-see-below = Is this scale right? See below
use-it-all-the-same = Use it all the same
the-scale-is-right = The scale is right
choose-another-way-the-file-says = Choose another way: the file says nothing
choose-another-way-the-book-says = Choose another way: the book says nothing
press-find-the-scale-card = Press Find the scale card
press-straighten-the-photo = Press Straighten the photo
click-one-end-of-the-ruler-or = Click one end of the ruler or scale bar on the photo
now-click-the-other-end = Now click the other end
type-the-length-between-the-two = Type the length between the two points
type-how-many-pixels-make-one = Type how many pixels make one millimetre
not-a-number = “{ $typed }” is not a number; write for example 85.2
press-find-the-scale-bar = Press Find the scale bar
pick-the-scale-bar-among-the = Pick the scale bar among the strokes that were found
type-how-long-the-scale-bar = Type how long the scale bar is
drag-along-the-rulers-edge-on = Drag along the ruler's edge on the photo
press-read-the-ruler = Press Read the ruler
pick-one-of-the-saved-set = Pick one of the saved set-ups
click-a-corner-of-the-rectangle-on = Click a corner of the rectangle on the photo
click-the-next-corner-along-its = Click the next corner, along its width
click-the-third-corner = Click the third corner
click-the-last-corner = Click the last corner
type-the-rectangles-width-and-height = Type the rectangle's width and height
no-scale-bar-was-found-on = No scale bar was found on this photo. If there is one, choose “Two points on the photo” and click both its ends.

## What is told of a scale

told-by-the-ticks = Told by the ticks
the-ticks-were-found-but-not = The ticks were found, but not what lies between two of them: it may be { $names }. Look at the ruler and choose it under “From tick to tick”.
the-file-says-a-scale = The file says { $scale } px per mm ({ $source })
how-long-the-bar-is = The bar is { $length } px long. It is left out with its label.
the-card-was-found-and-is = The card was found, and is left out by itself.
straightened-picture = Straightened picture: a tilt of { $degrees }° is taken out
stroke-so-long = { $number }: { $length } px long
the-scale-bar-and-its-label = The scale bar and its label are left out by themselves.
the-ruler-is-left-out-by = The ruler is left out by itself, as far as its ticks reach.
the-scale-card-is-left-out = The scale card is left out by itself.
as-you-chose = as you chose
told-by-the-long-and-the = told by the long and the short ones
ticks-found = { $count } ticks found, { $between } apart, { $how }.
standard-error-of-the-scale = Standard error of the scale: { $per_cent } %.
marks-out-of-line =
    { $count ->
        [one] One mark out of line was
       *[other] { $count } marks out of line were
    } not used, crossed on the photo.

## Set-ups

does-not-fit-this-photo = , does not fit this photo
set-up-in-words = { $name }: { $figure } px per mm{ $doubt }
saved-the-set-up = Saved the set-up “{ $name }”. Other photos by this camera at this distance can take their scale from it
type-a-name-for-the-set = Type a name for the set-up
no-name-for-a-set-up = “{ $name }” cannot be the name of a set-up; use letters, digits, spaces, hyphens and dots
there-is-no-home-folder-to = There is no home folder to keep set-ups in

## Settings taken up again

the-photo-could-not-be-straightened = The photo could not be straightened as it was before, so area and corrections are gone. Set the scale again in step 2

## How far each step is

parts-are-left-out =
    { $count ->
        [one] One part is left out
       *[other] { $count } parts are left out
    }
step-pores = Pores
record = Record
step-done = done
needs-you = needs you
later = later
cancelled-open-a-photo = Cancelled. Open a photo
open-a-photo-of-the-underside = Open a photo of the underside
how-many-pixels-make-a-millimetre = How many pixels make a millimetre
which-part-of-the-surface-to = Which part of the surface to measure
measure-and-look-at-what-was = Measure, and look at what was found
opening = opening
cancelled-still-photo = Cancelled. Still { $photo }
looking = looking
stopped-then = Stopped. { $what }
this-gives-no-scale-yet-see = This gives no scale yet; see below
share-left-out-as-unusable = {"."} { $share } of the photo is left out as unusable
draw-an-area-or-press-whole = Draw an area, or press Whole photo
the-scale-line-lies-in-it = { $area }. The scale line lies in it
the-scale-line-lies-in-the = The scale line lies in the area. Draw an area of pores only
measuring = measuring
starting-to-measure = Starting to measure
measure-once-the-scale-is-set = Measure, once the scale is set
cancelled-press-measure-to-begin-again = Cancelled. Press Measure to begin again
ready-press-measure = Ready. Press Measure
correcting = correcting
cancelled-still-findings = Cancelled. Still { $findings }

## White reference

colours-are-referred-to-the-white = Colours are referred to the white that you marked.
colours-are-referred-to-the-cards = Colours are referred to the card's own white.
without-one-colours-are-indicative-only = Without one, colours are indicative only.

# Words of the engine, which are looked up by what they say: the ids are free.

## Kinds of surface

word-smooth = smooth
word-poroid = poroid
word-maze-like = maze-like
word-gilled = gilled
word-toothed = toothed
word-undecided = undecided

## Parts of an uncertainty

word-place-to-place = place to place
word-scale = scale
word-outlines = outlines

## What measuring is at

word-looking-for-the-scale = Looking for the scale
word-finding-the-usable-part = Finding the usable part
word-finding-the-spacing = Finding the spacing
word-telling-hollows-from-walls = Telling hollows from walls
word-tracing-outlines = Tracing outlines
word-counting = Counting

## Why something is left out

word-left-out-by-hand = left out by hand
word-dark-surround = dark surround
word-strip-along-the-edge = strip along the edge
word-no-pores-to-be-seen = no pores to be seen
word-out-of-focus = out of focus
word-glare-or-overexposed = glare or overexposed
word-too-dark = too dark
word-not-this-surface = not this surface
word-bar-ruler-or-card = bar, ruler or card
word-beyond-the-photo = beyond the photo

## Characters that are compared

word-underside = underside
word-pores-per-mm = pores per mm
word-gills-per-mm = gills per mm
word-pore-width = pore width
word-host-wood = host wood
word-colour-of-the-underside = colour of the underside
word-cap-width = cap width
word-agrees = agrees
word-near = near
word-speaks-against = speaks against

## What a voucher can say

word-hardwood = hardwood
word-conifer = conifer
word-log = log
word-stump = stump
word-stick = stick
word-standing-tree = standing tree
word-wound = wound

## Corrections

word-joined = joined
word-split = split
word-deleted = deleted
word-added = added
word-drawn = drawn

## Months

word-jan = Jan
word-feb = Feb
word-mar = Mar
word-apr = Apr
word-may = May
word-jun = Jun
word-jul = Jul
word-aug = Aug
word-sep = Sep
word-oct = Oct
word-nov = Nov
word-dec = Dec

## Where the book is wrong

word-look = look
word-wrong = wrong

## Colours

word-in-part-with-a-violet-tint = , in part with a violet tint
word-with-a-violet-tint = {" "}with a violet tint
word-whitish = whitish
word-cream = cream
word-buff = buff
word-straw-yellow = straw yellow
word-yellow = yellow
word-orange = orange
word-ochre = ochre
word-tan = tan
word-cinnamon = cinnamon
word-rusty-brown = rusty brown
word-brown = brown
word-reddish-brown = reddish brown
word-dark-brown = dark brown
word-greyish-brown = greyish brown
word-pinkish-buff = pinkish buff
word-pinkish = pinkish
word-red = red
word-pale-violet = pale violet
word-violet-grey = violet grey
word-violet = violet
word-purplish-brown = purplish brown
word-pale-grey = pale grey
word-grey = grey
word-bluish-grey = bluish grey
word-dark-grey = dark grey
word-blackish = blackish
word-olive = olive
word-greenish = greenish

## Keys

word-key-ctrl = Ctrl
word-key-shift = Shift
word-key-pagedown = PageDown
word-key-pageup = PageUp
word-key-plus = Plus
word-key-minus = Minus
