# Lo que dice la ventana, en español.

## Window

type-the-folder-of-the-book = Escriba la carpeta del libro en el paso 5, Registrar
type-the-photos-path-in-step = Escriba la ruta de la foto en el paso 1, Foto
type-the-folder-in-step-5 = Escriba la carpeta en el paso 5, Registrar, en «Sin diálogo de archivos»
no-file-dialog-appeared-on-this = En este sistema no apareció ningún diálogo de archivos. { $instead }
hide-the-findings = Ocultar los resultados
show-the-findings = Mostrar los resultados
show-photo-as-taken = Foto tal como se tomó
shows-the-photo-with-its-tilt = Muestra la foto otra vez con su inclinación; después hay que fijar la escala de nuevo
type-the-folder-of-photos-in = Escriba la carpeta en el paso 1, Foto, en «Una carpeta de fotos»
nothing-opens-it = No se pudo abrir { $path }: { $error }. Ábralo a mano en un navegador

## Rail of steps

take-back = Deshacer
do-again = Rehacer
changes-of-scale-area-or-pores = { $meaning } un cambio de escala, zona o poros ({ $shortcut })
open-finder = Buscar…
type-what-you-want-to-do = Escriba lo que quiere hacer, y hágalo ({ $keys })
keys = Teclas
all-shortcuts-f1-or = Todos los atajos (F1 o ?)
open-preferences = Preferencias…
text-size-colours-movement = Tamaño del texto, colores, movimiento
words = Términos…
what-pore-wall-handbook-phrase-and = Qué significan poro, pared, expresión de manual y otras palabras del oficio
step-in-full = Paso { $number }, { $step }: { $standing }. { $sentence }

## Steps

next-step = Siguiente: { $step }

## Step 1, Photo

taken-at = Tomada { $when }
choose-photos-here = Abrir fotos…
choose-one-photo-or-several = Elegir una foto o varias ({ $shortcut })
answer-the-file-dialog-that-is = Responda primero al diálogo de archivos que está abierto
it-is-not-there-any-more-told = Ya no está ahí: { $told }
not-there-any-more = Ya no está ahí
opening-name = Abriendo { $name }
or-type-its-path = O escriba su ruta
open = Abrir
type-a-path-first = Escriba primero una ruta
opening-path = Abriendo { $path }
measure-the-underside-of-a-bracket = Medir la cara inferior de un hongo yesquero
take-the-photo-squarely-close-up = Tome la foto de frente, de cerca y con luz uniforme, con una regla o barra de escala en el plano de los poros.
three-ways-to-open-photos = Tres maneras de abrir fotos
choose-photos = Elegir fotos…
try-it-on-a-sample-photo = Probar con una foto de muestra
opens-a-photo-and-leads-you = Abre una foto y le guía por la medición, en tres minutos
photos-opened-before = Abiertas antes
press-the-button-below = Pulse el botón de abajo ({ $shortcut }) o escriba la ruta a la izquierda.
drag-photos-from-a-folder-onto = Arrastre fotos desde una carpeta a esta ventana.
start-from-a-terminal-poreline-underside = Desde una terminal: poreline underside.jpg
a-folder-of-photos = Una carpeta de fotos
every-photo-in-it-is-measured = Cada foto se mide como la que está abierta: una barra, una tarjeta o lo que dice el archivo se busca de nuevo en cada una; cualquier otra escala se toma como un montaje.
folder-of-photos = Carpeta de fotos
choose-the-folder = Elegir…
folder-for-the-results = Carpeta para los resultados
its-area-on-each-photo = Esta zona en cada foto
at-the-same-place-on-each = El contorno de la foto abierta, en el mismo lugar en cada una; si no, se mide todo lo utilizable
with-a-table-of-all-pores = Con una tabla de todos los poros
with-pictures-with-outlines = Con imágenes con contornos
voucher-in-the-photos-name = Testigo en el nombre de la foto
such-as-voucher-star = por ejemplo {"{"}voucher{"}"}_*
photos-of-one-voucher-are-pooled = {"{"}voucher{"}"} es el número de catálogo, * cualquier otra cosa. Las fotos de un testigo se reúnen en una cifra
attach-to-the-open-book = Adjuntar a los testigos del libro abierto
photos-are-copied-into-the-book = Las fotos se copian en el libro. Los testigos que no tiene se dicen, no se añaden
measure-the-folder = Medir la carpeta
what-was-measured-is-kept-start = Lo medido se conserva. Si se empieza otra vez, sigue donde estaba
go-on-working-meanwhile-closing-the = Puede seguir trabajando. Cerrar la ventana lo para; si se empieza otra vez, sigue donde estaba.
open-the-contact-sheet = Abrir la hoja de contactos
the-results-lie-in = Todos los resultados están en { $folder }
a-folder-is-being-measured = Se está midiendo una carpeta
open-one-of-its-photos-first = Abra primero una de sus fotos
type-the-folder-of-photos-first = Escriba primero la carpeta de fotos
say-where-the-voucher-stands = Diga dónde está el testigo en el nombre de la foto
the-folder-was-not-begun = La carpeta no se empezó ({ $error }); cierre otros programas e inténtelo de nuevo
the-folder-was-stopped = La carpeta se paró. Lo medido se conserva; si se empieza otra vez, sigue donde estaba
folder-files-done = { $done } de { $files } archivos
folder-pace =
    , { $rate } por minuto, { $minutes ->
        [0] queda menos de un minuto
        [one] queda un minuto más o menos
       *[other] quedan unos { $minutes } minutos
    }
folder-failed = , { $count } sin medir
folder-measured =
    { $count ->
        [one] 1 foto
       *[other] { $count } fotos
    } de la carpeta medidas, { $failed } no{ $others ->
        [0] {"."}
        [one] ; otro archivo no es una foto.
       *[other] ; otros { $others } archivos no son fotos.
    }
folder-attached = { $count } adjuntadas a testigos, { $before } ya estaban.
folder-without-vouchers = El libro no tiene el testigo { $numbers }.

## Step 2, Scale

corners-were-set-on-a-small-picture = Las esquinas se fijaron en una imagen pequeña: acérquese para una escala más segura y muévalas.
pixels-per-millimetre = Píxeles por milímetro
such-as-85-2-px = por ejemplo 85,2
stop = Parar
plus-minus-is-the-standard-uncertainty-each = ± es la incertidumbre típica: cada extremo se sitúa con un píxel de la foto o de la pantalla, en un rombo con medio píxel. Una línea más larga la reduce.
taken-as-exact = Se toma como exacta.
a-longer-line-makes-it-smaller = Una línea más larga la reduce.
plus-minus-is-the-standard-uncertainty = ± es la incertidumbre típica.
zoom-in-with-the-wheel-and = Acérquese con la rueda y pulse cada extremo; después puede moverlos. Con el teclado: P, flechas, Intro.
put-ends-on-edges = Poner extremos en bordes
an-end-goes-to-the-middle = El extremo va al centro del borde más cercano a menos de 8 píxeles de pantalla. Con Alt pulsada se queda donde usted señala
length-between-the-ends = Longitud entre los extremos
such-as-5-mm = por ejemplo 5 mm
set-the-ends-again = Fijar los extremos de nuevo
a-pixel-of-the-screen-covers = Un píxel de la pantalla cubre { $px } px de la foto: acérquese para una escala más segura.
ends-were-set-on-a-small-picture = Los extremos se fijaron en una imagen pequeña: acérquese para una escala más segura y muévalos.
find-the-scale-bar = Buscar la barra de escala
several-strokes-could-be-the-scale = Varios trazos podrían ser la barra de escala. Elija el correcto, aquí o en la foto.
length-of-the-scale-bar = Longitud de la barra de escala
such-as-2-mm = por ejemplo 2 mm
drag-on-the-photo-along-the = Arrastre en la foto por el borde en que se apoyan las marcas, hasta donde estén nítidas. Con el teclado: P, flechas, Intro en cada extremo.
from-tick-to-tick = De marca a marca
read-the-ruler = Leer la regla
drag-again-for-another-line-or = Arrastre de nuevo para otra línea, o mueva sus extremos.
the-card-has-to-lie-on = La tarjeta debe estar sobre la superficie, con al menos tres de sus marcas de esquina en la imagen.
find-the-scale-card = Buscar la tarjeta de escala
click-the-four-corners-one-after = Pulse las cuatro esquinas una tras otra, en redondo, primero a lo ancho. Con el teclado: P, flechas, Intro.
width-of-the-rectangle = Ancho
such-as-30-mm = por ejemplo 30 mm
height-of-the-rectangle = Alto
such-as-20-mm = por ejemplo 20 mm
set-the-corners-again = Fijar las esquinas de nuevo
straighten-the-photo = Enderezar la foto
no-set-up-has-been-saved = Todavía no hay ningún montaje guardado. Fije la escala de una foto de otra manera y guárdela entonces como montaje.
pick-the-one-that-this-photo = Elija aquel con el que se tomó esta foto.
save-this-scale-as-a-set = Guardar esta escala como montaje
for-other-photos-by-this-camera = Para otras fotos de esta cámara a esta distancia, con el mismo zoom.
name-of-the-set-up = Nombre del montaje
such-as-stand = por ejemplo columna
save-set-up = Guardar montaje
white-reference-for-colour = Blanco de referencia, para el color
mark-something-white = Marcar algo blanco
then-drag-a-rectangle-over-paper = Después arrastre un rectángulo sobre papel u otra cosa blanca, con la misma luz que la superficie
remove-the-white = Quitar el blanco
drag-a-rectangle-over-something-white-in = Arrastre un rectángulo sobre algo blanco con la misma luz que la superficie. Con el teclado: flechas, Intro en cada esquina.

## Step 3, Area

nothing-without-a-photo = Abra primero una foto.
draw-with = Dibujar con
rectangle = Rectángulo
drag-from-corner-to-corner-or = Arrastre de esquina a esquina, o pulse dos esquinas opuestas
outline = Contorno
click-corner-by-corner-enter-a = Pulse esquina por esquina; Intro, un doble clic o un clic en la primera lo cierra
freehand = A mano alzada
drag-once-around-the-part-to = Arrastre una vez alrededor de la parte que se va a medir; después puede mover sus esquinas
leave-out-a-part = Excluir una parte
drag-a-rectangle-over-a-part = Arrastre un rectángulo sobre una parte que no se deba medir, o pulse a su alrededor: daños, suciedad, una regla
drag-a-rectangle-over-pores-that = Arrastre un rectángulo sobre poros nítidos y vistos de frente.
click-around-pores-that-are-sharp = Pulse alrededor de poros nítidos y vistos de frente.
drag-around-pores-that-are-sharp = Arrastre alrededor de poros nítidos y vistos de frente.
drag-a-rectangle-over-what-is = Arrastre un rectángulo sobre lo que no se deba medir, o pulse a su alrededor.
by-keyboard-p-arrow-keys-enter = Con el teclado: P, flechas, Intro en cada esquina.
whole-photo = Foto entera
measure-all-of-the-photo-but = Medir toda la foto menos lo excluido
clear-outline = Borrar el contorno
take-the-outline-away-parts-that = Quita el contorno; las partes excluidas se quedan
clear-left-out-parts = Borrar lo excluido
leave-nothing-out-the-outline-stays = No excluir nada; el contorno se queda
hardly-any-of-this-photo-can = Apenas se puede medir nada de esta foto. Tómela de nuevo, o dibuje una zona donde los poros estén nítidos.
found-unusable-and-left-out-hatched = Hallado inservible y excluido, rayado en la foto. Quite la marca de lo que se deba medir de todos modos.
ticked-left-out-not-ticked-measured = Con marca: excluido. Sin marca: se mide como el resto

## Step 4, Pores

corrections-by-hand =
    { $count ->
        [one] 1 corrección a mano
       *[other] { $count } correcciones a mano
    }
select = Seleccionar
click-a-pore-to-see-its = Pulse un poro para ver sus cifras y trabajar en él; con Ctrl, uno más
add = Añadir
click-a-hollow-that-was-not-seen = Pulse un hueco que no se vio: lo oscuro alrededor de ese lugar pasa a ser un poro
draw = Dibujar
drag-once-around-a-pore-or-click = Arrastre una vez alrededor de un poro, o pulse su contorno esquina por esquina
split = Dividir
drag-a-stroke-right-across-a-pore = Arrastre un trazo de lado a lado de un poro que son dos
take-away = Borrar
join = Unir
drag-from-one-pore-to-a = Arrastre de un poro a un vecino que es parte de él
click-what-was-taken-for-a = Pulse lo que se tomó por un poro y no lo es
starting = Empezando
no-area-is-drawn-the-whole-photo = No hay zona dibujada: se medirá la foto entera, con el fondo.
no-area-is-drawn-the-whole = No hay zona dibujada: se medirá la foto entera, con la tarjeta y el fondo.
measure-again = Medir de nuevo
measure = Medir
find-and-measure-the-pores-in = Buscar y medir los poros de la zona ({ $shortcut })
correct-by-hand = Corregir a mano
by-keyboard-p-arrow-keys-enter-at = Con el teclado: P, flechas, Intro en cada lugar.
working-the-corrections-in = Incorporando las correcciones …
walls-that-part-pores = Paredes que separan poros
left-faint-walls-part-pores-too = Izquierda: también separan poros las paredes débiles. Derecha: solo las altas
usual = Habitual
take-walls-as-usual-accuracy-was = Tomar las paredes como de costumbre; la exactitud se comprobó solo así
as-usual = Como de costumbre
walls-from-a-height-on = Desde { $multiple } veces la altura habitual
pores-selected = { $count } seleccionados
delete-selected = Borrar selección
there-is-no-pore-here-delete = Aquí no hay ningún poro (Supr)
join-selected = Unir selección
these-are-one-pore = Estos son un solo poro
take-away-correction = Quitar la corrección { $number }
take-this-correction-away = Quitar esta corrección
nothing-there-to-act-on = { $correction }: ahí no hay nada sobre lo que actuar
take-all-away = Quitar todas
pores-as-they-were-found-undo = Poros tal como se hallaron; Deshacer devuelve las correcciones
counted = contados
not-counted-at-the-edge-or = no contados: en el borde, o no son poros

## Step 5, Record

files-of-the-book = Archivos del libro
files-of-the-findings = Archivos de los resultados
another-book = Otro libro
voucher-book = Libro de testigos
a-book-is-a-folder-of = Un libro es una carpeta de testigos que usted puede copiar y compartir. Los resultados adjuntos a un testigo se quedan con él.
read-this-book-anew = Leer el libro de nuevo
shows-what-others-have-changed-in = Muestra lo que otros han cambiado en él desde entonces
new-voucher = Nuevo testigo
pick-a-voucher = Elegir un testigo
no-voucher-is-picked-sentence = No hay ningún testigo elegido.
new = , nuevo
attach-these-findings = Adjuntar los resultados
keeps-all-figures-scale-and-area = Guarda todas las cifras, la escala y la zona con el testigo, y lo guarda
copy-the-photo-into-the-book = Copiar la foto en el libro
otherwise-the-book-only-tells-where = Si no, el libro solo dice dónde está la foto
measured-by = Medido por
your-name = su nombre
compare-with-published-ranges = Comparar con datos publicados
which-published-figures-the-findings-agree = Con qué cifras publicadas concuerdan los resultados, y contra cuáles hablan
measure-or-pick-a-voucher = Mida, o elija un testigo
open-a-book = Abrir un libro…
open-the-demo-book = Abrir el libro de muestra
an-invented-book-in-a-folder = Un libro inventado en una carpeta propia, para probar todo esto
or-type-its-folder = O escriba su carpeta
open-this-book = Abrir este libro
type-a-folder-first = Escriba primero una carpeta
make-a-new-book = Hacer un libro nuevo
name-of-the-book = Nombre del libro
such-as-alder-fen-foray-group = por ejemplo Grupo Micológico La Aliseda
folder-to-make-it-in = Carpeta donde hacerlo
catalogue-numbers = Números de catálogo
year-stands-for-the-year-of = {"{"}year{"}"} es el año del hallazgo, {"{"}number:4{"}"} cuenta con cuatro cifras.
make-the-book = Hacer el libro
fill-in-name-folder-and-numbers = Rellene primero nombre, carpeta y números

## Saving files

save-findings-json = Guardar resultados (JSON)…
all-figures-with-intervals-notes-and = Todas las cifras con intervalos, notas y ajustes, para programas y como constancia
save-pores-csv = Guardar poros (CSV)…
one-line-per-pore-with-its = Una línea por poro con su lugar y sus medidas, para una hoja de cálculo
save-overlay-png = Guardar contornos (PNG)…
a-copy-of-the-photo-with = Una copia de la foto con los contornos dibujados: la prueba que enseñar
save-corrections-json = Guardar correcciones (JSON)…
what-was-corrected-by-hand-for = Lo corregido a mano, para que `poreline measure --corrections` lo corrija otra vez
save-report-pdf = Informe (PDF)…
on-the-voucher-that-is-picked = Del testigo elegido: fotos con lo contado, cifras, datos publicados y el registro, para imprimir o enviar
save-report-html = Informe (HTML)…
the-same-as-one-page-for = Lo mismo como una página para el navegador
save-labels-pdf = Etiquetas (PDF)…
one-label-for-each-voucher-in = Una etiqueta por cada testigo de la lista, para imprimir y recortar
save-table-csv = Tabla (CSV)…
one-line-per-voucher-for-a = Una línea por testigo, para una hoja de cálculo
save-darwin-core-zip = Darwin Core (ZIP)…
a-darwin-core-archive-of-all = Un archivo Darwin Core de todos los testigos con sus mediciones, para una colección o un portal
walks-and-checklists-csv = Salidas y listas (CSV)…
one-line-per-sighting-for-a = Una línea por avistamiento, para una hoja de cálculo
charts-by-month-pdf = Gráficas por mes (PDF)…
on-which-share-of-each-months = En qué proporción de las salidas de cada mes se encontró cada taxón
findings-json = Resultados (JSON)
pores-csv = Poros (CSV)
overlay-png = Contornos (PNG)
corrections-json = Correcciones (JSON)
pick-a-voucher-first = Elija primero un testigo
places-in-these-files = Lugares en estos archivos
without-a-file-dialog = Sin diálogo de archivos
report-pdf = Informe (PDF)
report-html = Informe (HTML)
labels-pdf = Etiquetas (PDF)
table-csv = Tabla (CSV)
darwin-core-zip = Darwin Core (ZIP)
walks-csv = Salidas (CSV)
months-pdf = Meses (PDF)
as-recorded = como se registraron
only-to-a-cell-of-0 = solo hasta una celda de 0,1°
the-country-only = solo el país
folder-to-save-in = Carpeta donde guardar
save-into-this-folder-asks-before = Guardar en esta carpeta; pregunta antes de reemplazar un archivo

## The photo

photo-straightened = { $name }, enderezada
photo-with-outlines = Foto { $name }, { $count } con contorno
photo-so-named = Foto { $name }
a-place-is-framed = { $photo }; hay un lugar enmarcado

## Under the photo

show-outlines = Ver contornos
outlines-of-what-was-found-solid = Contornos de lo hallado: continuos donde se contó, discontinuos donde no
turned-by = , girada { $degrees }°
zoom-out = Alejar
zoom-in = Acercar
fit = Ajustar
show-all-of-the-photo = Mostrar toda la foto
one-photo-pixel-per-screen-pixel = Un píxel de la foto por píxel de pantalla

## Looks of the photo

view = Vista
turn-the-photo-or-show-it = Girar la foto o mostrarla más clara. Lo que se mide no cambia
for-looking-only-what-is-measured = Solo para mirar: lo que se mide no cambia.
loupe = Lupa
enlarges-the-place-where-an-end = Amplía el lugar donde se fija un extremo o una esquina (L)
scale-bar = Barra de escala
a-bar-of-a-round-length = Una barra de longitud redonda en la esquina, cuando hay escala
brightness = Brillo
contrast = Contraste
half-without = Mitad sin
shows-the-photo-without-outlines-left = Muestra la foto sin contornos a la izquierda de una línea que se puede mover (W)
show-the-outlines-first = Muestre primero los contornos
brightness-changed-for-looking-only = Brillo cambiado solo para mirar
reset-brightness = Restablecer brillo
shows-the-photos-own-brightness-and = Muestra el brillo y el contraste propios de la foto
turn-left = Girar a la izquierda
a-quarter-turn-against-the-clock = Un cuarto de vuelta contra el reloj (Mayús+R)
turn-right = Girar a la derecha
a-quarter-turn-with-the-clock = Un cuarto de vuelta con el reloj (R)
upright = Derecha
shows-the-photo-as-it-lies = Muestra la foto tal como está en su archivo
turn = Giro
turns-the-photo-on-the-screen = Gira la foto en la pantalla; el archivo se queda como está

## What to do on the photo

wheel-zooms-dragging-moves-the-photo = La rueda acerca y aleja; arrastrar mueve la foto
click-one-end-of-the-ruler = Pulse un extremo de la regla o barra; Alt evita los bordes. Arrastrar mueve la foto
click-the-other-end-alt-keeps = Pulse el otro extremo; Alt evita los bordes. Arrastrar mueve la foto
click-the-stroke-that-is-the = Pulse el trazo que es la barra de escala
click-where-the-line-ends-esc = Pulse donde acaba la línea. Esc cancela
drag-along-the-edge-that-the = Arrastre por el borde en que se apoyan las marcas de la regla
click-a-corner-of-the-rectangle = Pulse una esquina del rectángulo. Arrastrar mueve la foto
click-the-next-corner-going-round = Pulse la esquina siguiente, en redondo. Arrastrar mueve la foto
click-the-opposite-corner-esc-cancels = Pulse la esquina opuesta. Esc cancela
drag-a-rectangle-over-something-white = Arrastre un rectángulo sobre algo blanco. Esc cancela
drag-from-corner-to-corner = Arrastre de esquina a esquina
click-the-first-corner = Pulse la primera esquina
drag-once-around-what-is-to = Arrastre una vez alrededor de lo que se va a medir
drag-a-rectangle-or-click-corner = Arrastre un rectángulo, o pulse esquina por esquina
click-a-pore-to-select-it = Pulse un poro para seleccionarlo, con Ctrl uno más. Arrastrar mueve la foto
click-a-hollow-that-was-not = Pulse un hueco que no se vio. Arrastrar mueve la foto
click-what-is-no-pore-dragging = Pulse lo que no es un poro. Arrastrar mueve la foto
click-the-pore-to-join-it = Pulse el poro con el que unirlo. Esc cancela
drag-from-one-pore-to-its = Arrastre de un poro a su vecino, o pulse los dos
click-where-the-stroke-ends-esc = Pulse donde acaba el trazo. Esc cancela
drag-a-stroke-right-across-a = Arrastre un trazo de lado a lado de un poro, o pulse sus dos extremos
click-corners-enter-closes-esc-cancels = Pulse las esquinas. Intro cierra, Esc cancela
drag-once-around-a-pore-or = Arrastre una vez alrededor de un poro, o pulse esquina por esquina

## Handles on the photo

scale-line-first-end = Línea de escala, primer extremo
scale-line-second-end = Línea de escala, segundo extremo
line-along-the-ruler-first-end = Línea de la regla, primer extremo
line-along-the-ruler-second-end = Línea de la regla, segundo extremo
corner-of-the-rectangle = Rectángulo, esquina { $number }
corner-of-the-area = Zona, esquina { $number }
corner-of-a-left-out-part = Parte excluida { $part }, esquina { $number }
drag-it-with-alt-freely-or = Arrástrelo, con Alt libremente, o muévalo con las flechas 1 px, con Mayús 0,1 px. Intro lo pone en el borde más cercano
drag-it-or-move-it-with-the = Arrástrela, o muévala con las flechas 1 px, con Mayús 0,1 px. Supr o un clic derecho la quita, Insert añade otra después
drag-it-or-move-it-with = Arrástrelo, o muévalo con las flechas 1 px, con Mayús 0,1 px

## Corners

click-to-add-a-corner-here = Pulse para añadir aquí una esquina, o llévela adonde deba estar

## Divider

left-of-it-the-photo-without = A su izquierda, la foto sin contornos. Arrástrela, o muévala con las flechas
divider-per-cent-of-the-width = Línea divisoria, por ciento del ancho

## Colouring of outlines

counted-or-not = Contado o no
colour-by = Color según
what-the-colours-mean = { $measure }: azul oscuro es { $low } o menos, amarillo claro { $high } o más. Nueve décimas partes de los poros están entre ambos

## Marks of the scale

white = blanco
side-width = ancho
side-height = alto

## Scale bar on the screen

scale-bar-of = Barra de escala de { $length }
how-long-this-bar-is = Esta barra mide { $length } sobre el hongo

## Findings

a-measurement-agrees-with-or-speaks = Una medición concuerda con cifras publicadas o habla contra ellas; no nombra ninguna especie. Nunca coma ni dosifique fiándose de ella; pregunte a una persona experta.
findings = Resultados
measuring-the-findings-will-stand-here = Midiendo. Los resultados aparecerán aquí.
once-the-photo-is-measured-this = Cuando la foto esté medida, aquí leerá qué tipo de superficie es, cuántos poros hay por mm, qué anchura tienen, cuán segura es cada cifra y a qué prestar atención.
surface-and-sureness = { $surface }, { $sureness }
how-sure-the-kind-of-surface = Cuán seguro es el tipo de superficie, de 0 a 1; las razones están debajo.
the-figures-are-withheld-the-notes = Las cifras se retienen; las notas dicen por qué
no-count-on-this-kind-of = En este tipo de superficie no se cuenta
why-this-kind = Por qué «{ $kind }»
figures = Cifras
copy-as-text = Copiar como texto
copies-all-findings-in-words = Copia todos los resultados en palabras
copy-as-table = Copiar como tabla
copies-the-figures-to-be-pasted = Copia las cifras, para pegarlas en una hoja de cálculo
what-the-uncertainty-is-made-of = De qué se compone la incertidumbre
copy = Copiar
copies-the-phrase = Copia la expresión
copy-the-phrase = Copiar la expresión
within-interval = Intervalo del 95 % { $interval }
what-do-these-mean = ¿Qué significa esto?
parts-of-the-uncertainty-of = Partes de la incertidumbre de { $figure }: { $parts }
withheld = Retenido
caution = Atención
good-to-know = Conviene saberlo
show-me = Mostrar
shows-on-the-photo-where-this = Muestra en la foto dónde se ve mejor

## Charts

measure-of-pores = { $measure } de los poros
which-way-pores-are-drawn-out = Hacia dónde se alargan los poros
too-round-to-point-anywhere = { $count } más son demasiado redondos para señalar a ninguna parte
pores-along-lines-of-1-mm = Poros en líneas de 1 mm
press-a-bar-to-select-its = Pulse una barra para seleccionar sus poros en la foto, con Ctrl para añadirlos. Con el teclado: flechas, Intro.
table-of-pores = Tabla de poros
histogram-of = Histograma: { $measure }
pores-on-lines = { $pores } poros en { $lines }
all-lines-of-1-mm = De { $all } líneas de 1 mm: { $counts }
histogram-class-in-full = { $histogram }: { $count } poros de { $class }
histogram-class = { $count } poros de { $class }
rose-of-directions = Rosa de direcciones
sorts-by-this = Ordena por esto
pore-in-the-table = Poro { $number }, diámetro { $diameter }, alargamiento { $elongation }
hollows = Huecos
walls = Paredes
network-in-words = { $network } El trozo mayor de cada uno es oscuro.
network-picture = { $phase } de un trozo de la superficie. { $network }

## Strip of photos

dragged-to-a-voucher = { $photo } a un testigo del libro
photo-of-the-strip =
    { $path }
    { $standing }{ $told }
    Pulse para trabajar en ella. Arrástrela a un testigo del libro para adjuntar sus resultados. Supr la saca de la tira; el archivo se queda
not-saved = sin guardar
scale-for-all = Escala a todas
gives-this-photos-scale-to-all = Da la escala de esta foto a todas las demás, como haría un montaje
area-for-all = Zona a todas
gives-the-outline-of-this-photos = Da el contorno de la zona de esta foto a todas las demás

## Views of the last step

photo = Foto
voucher = Testigo
published-ranges = Datos publicados
book = Libro
walks = Salidas

## List of vouchers

no-book-is-open = No hay ningún libro abierto
open-one-on-the-left-or = Abra uno a la izquierda, o haga uno nuevo.
find-in-the-book = Buscar
number-name-place-person = número, nombre, lugar, persona
vouchers-shown = { $shown } de { $all } testigos
check-the-book = Revisar el libro
looks-for-dates-and-places-that = Busca fechas y lugares imposibles, fotos que cambiaron, números dados dos veces
double-click-or-enter-on-a = Doble clic, o Intro en una fila, abre su foto otra vez con sus resultados.
things-to-look-at =
    { $count ->
        [0] No hay nada mal en el libro
        [one] Una cosa que mirar
       *[other] { $count } cosas que mirar
    }
hide = Ocultar
fill-in-this-voucher = Rellenar este testigo
fill-in = Rellenar
shows-the-voucher-that-is-picked = Muestra el testigo elegido
open-its-photo = Abrir su foto
no-photo-of-it-was-measured = No se midió ninguna foto suya
rising = , ascendente
falling = , descendente
sort-by-column = Ordenar por { $column }{ $order }
the-book-has-no-voucher-yet = El libro aún no tiene testigos. Pulse Nuevo testigo a la izquierda.
no-voucher-holds-all-of-these = Ningún testigo contiene todas estas palabras.

## Voucher

no-voucher-is-picked = No hay ningún testigo elegido
pick-one-in-the-book-or = Elija uno en el libro, o pulse Nuevo testigo a la izquierda.
found = Hallazgo
specimen = Ejemplar
name-and-notes = Nombre y notas
more-about-the-specimen = Más sobre el ejemplar
new-not-saved-yet = nuevo, aún sin guardar
changed-not-saved-yet = cambiado, aún sin guardar
saved = guardado
save-voucher = Guardar testigo
drop-changes = Descartar
from-the-photos-file = del archivo de la foto
take-date-and-place-from-the = Tomar fecha y lugar de la foto
fills-in-what-the-photos-file = Rellena lo que dice el archivo de la foto, donde aún no hay nada
no-photo-is-open = No hay ninguna foto abierta
blur-the-place-to-0-1 = Difuminar el lugar a 0,1°
for-rare-finds-tells-only-in = Para hallazgos raros: dice solo en qué celda de 0,1° por 0,1° se encontró, unos 11 km de sur a norte
there-are-no-coordinates = No hay coordenadas
coordinates-are-those-of-phones-and = Las coordenadas son las de teléfonos y receptores GPS (WGS 84). Van adonde vaya el libro.
photos-and-measurements = Fotos y mediciones
pooled-together = En conjunto { $pooled }
none-yet-attach-these-findings-on = Ninguna todavía. Adjuntar los resultados, a la izquierda, añade la foto abierta.
names-it-had-before = Nombres que tuvo antes
name-before-that = antes { $names }
open-photo-again = Abrir { $photo } otra vez
opens-the-photo-with-its-scale = Abre la foto con su escala y su zona, y la mide otra vez
its-findings-do-not-tell-scale = Sus resultados no dicen escala ni zona
take-photo-off = Quitar { $photo }
takes-the-photo-and-what-was = Quita de este testigo la foto y lo medido en ella, cuando usted lo guarde. La foto misma se queda

## Published ranges

nothing-to-compare-yet = Todavía nada que comparar
measure-a-photo-or-pick-a = Mida una foto, o elija un testigo que tenga resultados, madera huésped, color o ancho del sombrero. Después pulse Comparar con datos publicados a la izquierda.
what-agrees-with-it-and-what = Qué concuerda con ello, y qué habla en contra
more-taxa-agree-in-less = { $count } taxones más de la tabla concuerdan en menos, o tienen más en contra.
several-taxa-can-agree = { $cautions } Varios taxones pueden concordar con todo lo visto, y ninguno tiene por qué ser el correcto: la tabla dista mucho de estar completa, y lo que le falta no puede concordar.
to-tell-two-apart = Para distinguir { $first } de { $second }, mire ahora
the-table-says-the-same-of = La tabla dice lo mismo de ambos; pregunte a una persona experta.
character-as-seen = { $character }: visto { $seen }
as-printed = impreso { $range }

## Walks

the-book-is-being-read-or = El libro se está leyendo o escribiendo
a-new-walk = Nueva salida
date-of-the-walk = Fecha de la salida
such-as-2026-10-04 = por ejemplo 2026-10-04
place-of-the-walk = Lugar de la salida
in-words = en palabras
how-many-walked = Cuántas personas fueron
such-as-7 = por ejemplo 7
add-the-walk = Añadir la salida
walks-of-the-book =
    { $count ->
        [0] Ninguna salida todavía
        [one] Una salida
       *[other] { $count } salidas
    }
people-on-the-walk = , { $count } personas
sightings-on-the-walk =
    { $count ->
        [0] nada visto
        [one] 1 avistamiento
       *[other] { $count } avistamientos
    }
seen-on-walk = Visto en { $walk }
nothing-yet = Nada todavía.
kept-as-voucher = testigo { $number }
also-seen = También visto
such-as-stereum-hirsutum = por ejemplo Stereum hirsutum
voucher-of-it = Testigo de ello
its-number = su número
add-to-the-checklist = Añadir a la lista
how-often-each-taxon-was-met = Con qué frecuencia se encontró cada taxón
share-of-all-walks-with-wilsons = Proporción de todas las salidas, con el intervalo del 95 % de Wilson, y por mes las salidas en que se encontró de las realizadas.
taxon = Taxón
share-of-walks = Proporción de salidas
column-first-to-last = Primera a última
walks-met-of-all = { $met } de { $all }
first-to-last-date = { $first } a { $last }

## Sheets over the window

a-file-of-that-name-is = Ya hay un archivo con ese nombre
a-set-up-of-that-name = Ya hay un montaje con ese nombre
photos-measured-by-the-old-one = Las fotos medidas con el antiguo conservan sus cifras.
replace-it = Reemplazarlo
the-findings-are-not-saved = Los resultados no están guardados
closing-the-photo = Al cerrar la foto
closing-the-window = Al cerrar la ventana
would-lose-what-was-measured = { $doing } se perdería lo medido en { $photos }.
go-back-and-save-them = Volver y guardarlos
discard-all = Descartar todo
they-cannot-be-saved-now = Ahora no se pueden guardar: { $why }.
this-photo-belongs-to-another-voucher = Esta foto ya pertenece a { $number }
attach-only-if-both-are-shown = Adjunte sus resultados también a { $this } solo si muestra ambos ejemplares. Si no, elija { $other }, u otra foto.
attach-to-this-too = Adjuntar también a { $this }
poreline-did-not-come-to-its = Poreline no llegó a su fin la última vez
this-was-open-with-everything-that = Esto estaba abierto, con todo lo fijado y corregido:
photos-that-were-measured-are-measured = Las fotos que estaban medidas se miden otra vez, con el mismo resultado.
go-on-where-it-stopped = Seguir donde se paró
drop-it = Descartarlo
the-voucher-is-not-saved = El testigo no está guardado
closing-the-window-would-lose = Al cerrar la ventana se perdería
this-drops = Esto descarta
going-on-would-lose = Al seguir se perdería
would-lose-what-you-typed = { $doing } lo que escribió en { $number } desde que se guardó.
save-first = Guardar primero
discard = Descartar
cancel = Cancelar
voucher-changed-by-somebody-else = Otra persona cambió { $number }
since-you-began-another-window-or-person = Desde que usted empezó, otra ventana u otra persona guardó este testigo. No se sobrescribió nada. Estos campos los cambiaron ambos:
since-you-began-another-window-or = Desde que usted empezó, otra ventana u otra persona guardó este testigo. No se sobrescribió nada, y usted cambió cosas distintas, así que ambos encajan.
field = Campo
yours = Lo suyo
theirs = Lo ajeno
put-together-yours-in-these-fields = Juntar, con lo suyo en estos campos
put-together = Juntar
put-together-theirs-in-these-fields = Juntar, con lo ajeno en estos campos
keep-both = Conservar ambos
theirs-stays-as-it-is-yours = Lo ajeno se queda como está; lo suyo pasa a ser un testigo con el número siguiente
go-on-typing = Seguir escribiendo
shortcuts = Atajos

## Messages

dismiss = Cerrar aviso
not-done = No hecho
let-go-to-open-the-photo = Suelte para abrir la foto

## Finder

what-do-you-want-to-do = ¿Qué quiere hacer?
for-example-scale-bar-measure-dark = por ejemplo: barra de escala, medir, oscuro
nothing-goes-by-these-words = Nada se llama así.
go-to-photo = Ir a { $photo }
photo-strip = foto tira
this-is-the-photo-that-is = Esta es la foto que se muestra
open-recent-photo = Abrir { $photo }
recent-photo = reciente foto
it-is-not-there-any-more = Ya no está ahí
opened-before = abierta antes
arrow-keys-choose-enter-does-it = Las flechas eligen, Intro lo hace, Esc cierra.

## What can be done by name; `words` are other words that it may be looked for by

do-find-what-to-do = Buscar qué hacer
    .words = buscador orden búsqueda
do-open-photos = Abrir fotos
    .words = archivo imagen cargar
do-next-photo = Foto siguiente
    .words = tira adelante
do-photo-before = Foto anterior
    .words = tira atrás previa
do-take-this-photo-out-of-the = Sacar esta foto de la tira
    .words = cerrar quitar
do-go-to-step-1-photo = Ir al paso 1, Foto
    .words = abrir
do-go-to-step-2-scale = Ir al paso 2, Escala
    .words = milímetro
do-go-to-step-3-area = Ir al paso 3, Zona
    .words = contorno región
do-go-to-step-4-pores = Ir al paso 4, Poros
    .words = contar dientes
do-go-to-step-5-record = Ir al paso 5, Registrar
    .words = testigo libro
do-measure = Medir
    .words = contar poros dientes empezar
do-measure-a-folder = Medir una carpeta de fotos
    .words = lote muchas todas serie
do-stop-what-is-under-way = Parar lo que está en marcha
    .words = cancelar abortar
do-save = Guardar
    .words = resultados testigo conservar escribir
do-save-the-findings-without-a-file = Guardar los resultados sin diálogo de archivos
    .words = junto foto carpeta
do-save-the-table-of-pores = Guardar la tabla de poros
    .words = csv hoja de cálculo exportar
do-save-the-picture-with-outlines-and = Guardar la imagen con contornos y barra de escala
    .words = superposición png diapositiva exportar
do-undo = Deshacer
    .words = atrás
do-redo = Rehacer
    .words = otra vez
do-scale-from-two-points = Escala por dos puntos
    .words = pulsar línea
do-scale-from-a-scale-bar = Escala por una barra de escala
    .words = buscar
do-scale-from-a-ruler = Escala por una regla
    .words = marcas milímetro pulgada
do-scale-from-the-scale-card = Escala por la tarjeta de escala
    .words = inclinación enderezar
do-scale-from-the-corners-of-a = Escala por las esquinas de un rectángulo
    .words = inclinación enderezar
do-scale-from-a-saved-set-up = Escala por un montaje guardado
    .words = cámara columna
do-scale-from-what-the-file-says = Escala según el archivo
    .words = tiff resolución
do-type-the-scale = Escribir la escala
    .words = número píxeles
do-mark-something-white = Marcar algo blanco
    .words = color balance papel
do-give-this-photos-scale-to-all = Dar la escala de esta foto a todas
    .words = trasladar tira
do-give-this-photos-area-to-all = Dar la zona de esta foto a todas
    .words = trasladar tira contorno
do-measure-the-whole-photo = Medir la foto entera
    .words = borrar contorno zona
do-leave-nothing-out = No excluir nada
    .words = borrar huecos zona
do-take-all-corrections-away = Quitar todas las correcciones
    .words = borrar poros
do-open-a-book = Abrir un libro
    .words = testigos carpeta
do-open-the-demo-book = Abrir el libro de muestra
    .words = ejemplo probar testigos
do-show-the-book = Mostrar el libro
    .words = lista testigos buscar
do-show-the-walks = Mostrar las salidas
    .words = excursión frecuencia temporada
do-new-voucher = Nuevo testigo
    .words = ejemplar registro
do-attach-these-findings-to-the-voucher = Adjuntar estos resultados al testigo
    .words = guardar registrar libro
do-compare-with-published-ranges = Comparar con datos publicados
    .words = manual taxones especies
do-check-the-book = Revisar el libro
    .words = errores mal
do-show-the-photo = Mostrar la foto
    .words = imagen
do-show-all-of-the-photo = Mostrar toda la foto
    .words = ajustar zoom entera
do-turn-the-photo-right = Girar la foto a la derecha
    .words = rotar reloj
do-turn-the-photo-left = Girar la foto a la izquierda
    .words = rotar contra reloj
do-turn-the-photo-upright = Poner la foto derecha
    .words = girar recta
do-show-outlines-or-not = Mostrar contornos o no
    .words = ocultar superposición
do-show-half-without-outlines = Mostrar la mitad sin contornos, o toda
    .words = divisoria comparar antes después
do-show-the-loupe-or-not = Mostrar la lupa o no
    .words = ampliar
do-show-the-scale-bar-or-not = Mostrar la barra de escala o no
    .words = ocultar longitud
do-words-of-the-trade = Palabras del oficio
    .words = glosario términos significado poro pared diente expresión intervalo
do-preferences = Preferencias
    .words = ajustes opciones tamaño texto idioma
do-larger-text = Texto más grande
    .words = mayor zoom tamaño ojos
do-smaller-text = Texto más pequeño
    .words = zoom tamaño
do-light-colours = Colores claros
    .words = aspecto tema día
do-dark-colours = Colores oscuros
    .words = aspecto tema noche
do-colours-as-the-system-has-them = Colores como en el sistema
    .words = aspecto tema
do-measure-a-sample-photo-step-by = Medir una foto de muestra, paso a paso
    .words = guía ayuda aprender primero
do-shortcuts = Atajos
    .words = teclas teclado ayuda

## Why something cannot be done

nothing-is-outlined-yet = Todavía no hay contornos
nothing-was-corrected = No se corrigió nada
nothing-was-taken-back = No se deshizo nada
there-is-nothing-to-take-back = No hay nada que deshacer
nothing-is-under-way = No hay nada en marcha
there-is-no-other-photo-on = No hay otra foto por ese lado

## Shortcuts on the photo

arrow-keys-enter = Flechas, Intro
on-the-photo-move-the-crosshair = En la foto: mover la cruz, fijar un punto; con Mayús 1 px
enter-backspace-esc = Intro, Retroceso, Esc
close-an-outline-drop-its-last = Cerrar un contorno, descartar su última esquina, descartarlo entero
delete = Supr
in-step-pores-delete-the-pores = En el paso Poros: borrar los poros seleccionados
wheel = +, −, rueda
zoom-in-zoom-out-0-for = Acercar, alejar; 0 para un píxel de la foto por píxel de pantalla
held-an-end-of-the-scale = Pulsada: un extremo de la línea de escala se aparta de los bordes
enter = Intro
on-an-end-of-the-scale = En un extremo de la línea de escala: ponerlo en el borde más cercano
insert-delete = Insert, Supr
on-a-corner-of-the-area = En una esquina de la zona: añadir otra después, quitarla
middle-or-right-drag = Arrastrar con el botón central o derecho
move-the-photo-at-any-step = Mover la foto, en cualquier paso; también arrastrando con la barra espaciadora pulsada
redo = Rehacer
undo = Deshacer

## Guide

at-the-lower-right-of-the = Abajo a la derecha de la foto hay una barra impresa. Pulse su extremo izquierdo y después el derecho. Gire la rueda para verlos más grandes.
by-keyboard-p-then-arrow-keys = Con el teclado: P, después flechas e Intro para cada extremo.
type-on-the-left-how-long = Escriba a la izquierda cuánto mide la barra: 2 mm. Ahora Poreline sabe cuántos píxeles hacen un milímetro.
by-keyboard-tab-leads-to-the = Con el teclado: Tab lleva al campo.
go-on-to-step-3-area = Vaya al paso 3, Zona, y arrastre un rectángulo sobre poros limpios, de una esquina a la otra, lejos de la barra.
by-keyboard-3-then-p-arrow = Con el teclado: 3, después P, flechas e Intro para cada esquina.
go-on-to-step-4-pores = Vaya al paso 4, Poros, y pulse Medir. Tarda unos segundos.
by-keyboard-ctrl-m = Con el teclado: Ctrl+M.
on-the-right-stands-what-a = A la derecha está lo que imprimiría un manual: cuántos poros caben en un milímetro a lo largo de una fila, por lo general, y entre paréntesis cuán pocos o cuántos hay en algunos sitios. Debajo está cuán segura es cada cifra: 95 de 100 de esos intervalos contienen la cifra verdadera.
each-outline-on-the-photo-is = Cada contorno de la foto es un poro contado. Señale uno para leer su tamaño, y púlselo. Los erróneos se pueden unir, dividir o borrar aquí.
step-5-record-keeps-the-findings = El paso 5, Registrar, conserva los resultados: adjúntelos a un testigo de su libro, compárelos con datos publicados, o guárdelos como archivos. Después abra una foto suya. Poreline mide; nunca dice qué es un hongo, ni que se pueda comer.
guide-step = Guía, { $number } de { $all }
next = Siguiente
done = Hecho
leave-the-guide = Dejar la guía
ctrl-k-and-sample-begin-it = Ctrl+K y «muestra» la empiezan de nuevo
show-step-5 = Mostrar el paso 5

## Words of the trade

pore = Poro
the-mouth-of-one-tube-on = La boca de un tubo en la cara inferior, vista desde abajo: un hueco cerrado por pared en todo su contorno.
what-is-dark-the-inside-of = Lo oscuro: el interior de los tubos, los espacios entre láminas o dientes.
what-is-bright-the-tissue-between = Lo claro: el tejido entre huecos.
tooth = Diente
a-piece-of-wall-with-hollow = Un trozo de pared con hueco todo alrededor, donde las paredes se rompieron.
the-kinds-of-underside-poroid-hollows = Los tipos de cara inferior. Poroide: huecos cerrados unos de otros. Dentada: paredes separadas unas de otras. Laminada: ni lo uno ni lo otro, y en una sola dirección. Laberíntica: ni lo uno ni lo otro, y en todas direcciones. Lisa: sin huecos visibles.
how-far-it-is-from-the = Cuánto hay del centro de un poro al del siguiente a lo largo de una fila.
how-many-pores-lie-in-a = Cuántos poros caben en un milímetro a lo largo de una fila de poros apretados, como se cuentan junto a una regla.
count-line = Línea de recuento
a-line-of-one-millimetre-laid = Una línea de un milímetro puesta al azar sobre la superficie, en la que se cuentan poros como lo haría una persona.
per-mm-most-count-lines-hold = «(3–)4–5(–6) per mm»: la mayoría de las líneas de recuento tienen 4 o 5 poros, algunas 3 o 6. Donde cabe menos de un poro, más o menos, por milímetro, da su anchura en su lugar. Dice cuánto difieren los sitios, no cuán segura es la media.
the-range-that-is-to-hold = El intervalo que debe contener la cifra verdadera en 95 de 100 mediciones así. Crece donde se vieron pocos poros, donde la escala es insegura y donde los bordes no son nítidos.
of-the-circle-that-is-as = El del círculo que es tan grande como el poro.
feret-width = Ancho de Feret
what-a-calliper-laid-across-the = Lo que leería un calibre puesto a través del poro: lo menos y lo más.
elongation = Alargamiento
how-many-times-as-long-as = Cuántas veces más largo que ancho: 1 es redondo. Donde el poro del medio pasa de 1,5, se cuentan poros también a lo largo y a lo ancho.
which-part-of-the-surface-is = Qué parte de la superficie es hueco y no pared.
a-kept-specimen-with-its-record = Un ejemplar conservado con su registro, para que otra persona pueda mirar de nuevo y discrepar.
cf-aff = cf., aff.
before-a-species-name-cf-to = Ante el nombre de una especie: cf., compárese con, está cerca de ella pero no decidido; aff., afín a, está cerca de ella y es otra cosa.
poroid-toothed-gilled-maze-like-smooth = Poroide, dentada, laminada, laberíntica, lisa
pores-per-mm = Poros por mm
handbook-phrase = Expresión de manual
interval-of-95-per-cent = Intervalo del 95 %
diameter-nine-in-ten = Diámetro, nueve de diez
diameter = Diámetro
hollow-share = Proporción hueca
hollow-void = Hueco
spacing-second-opinion = Espaciado, segunda opinión
spacing = Espaciado
wall-thickness = Grosor de la pared
wall-dissepiment = Pared, disepimento
words-of-the-trade = Palabras del oficio

## Preferences

as-the-system-speaks = Como el sistema
language = Idioma
preferences = Preferencias
text-size = Tamaño del texto
colours = Colores
movement = Movimiento
nothing-moves-by-itself = Nada se mueve por sí solo
kept-from-one-start-to-the = Se conserva de un inicio al siguiente, con el tamaño de la ventana y las últimas carpetas usadas.
close = Cerrar

## File dialogs

open-photos = Abrir fotos
photos = Fotos
all-files = Todos los archivos
open-a-book-choose-its-folder = Abrir un libro: elija su carpeta
save = Guardar
choose-a-folder-of-photos = Elija una carpeta de fotos

## What is missing

title-of-photo-and-findings = Poreline – { $photo } – { $findings }
open-a-photo-first = Abra primero una foto
something-is-asked-about-the-scale = Se pregunta algo sobre la escala. Responda en el paso 2, Escala
the-scale-is-gone-set-it = La escala ya no está. Fíjela de nuevo
corrections-are-worked-in = Incorporando las correcciones
working-out-the-figures-anew = Calculando las cifras de nuevo
working-out-the-figures-at-the = Calculando las cifras con la nueva escala
the-picture-has-changed-since-measure = La imagen ha cambiado desde entonces. Mida de nuevo
the-area-has-changed-since-measure = La zona ha cambiado desde entonces. Mida de nuevo
wait-until-the-present-work-is = Espere a que acabe el trabajo actual, o cancélelo
measure-first = Mida primero
saved-to = Guardado en { $path }
the-file-was-not-saved = El archivo no se guardó ({ $error }); cierre otros programas e inténtelo de nuevo
that-outline-crosses-itself-or-encloses = Ese contorno se cruza consigo mismo o no encierra nada. Dibújelo de nuevo, dando una vuelta
title-of-photo = Poreline – { $photo }

## Carrying scale and area over

not-carried-over-to = { $what } no se trasladó a { $photos }, de otro tamaño que la foto en que se dibujó
carried-over-to-other-photos =
    { $what } trasladada a { $count } { $count ->
        [one] foto más
       *[other] fotos más
    }
scale-as-on-photo = como en { $photo }
the-area-was-not-carried-over = La zona no se trasladó: esta foto es de otro tamaño que aquella en que se dibujó
open-more-photos-first = Abra primero más fotos
the-area-lies-on-a-straightened = La zona está en una imagen enderezada, y cada foto se endereza de otro modo
draw-an-area-first = Dibuje primero una zona
what-is-written-of-this-photos = Lo escrito sobre la escala de esta foto vale solo para esta foto; fije la escala de otra manera
set-the-scale-first = Fije primero la escala
scale = Escala
area = Zona

## Corrections

correction-in-words = { $number }: { $done } en { $x }, { $y } px
corrections-left-behind =
    { $count ->
        [one] Una corrección a mano queda fuera de lo que muestra la imagen enderezada, y se dejó
       *[other] { $count } correcciones a mano quedan fuera de lo que muestra la imagen enderezada, y se dejaron
    } atrás. Deshacer lo devuelve todo

## Histograms

number = Número

## The area in words

outline-and-parts-left-out =
    { $outline }, { $count ->
        [one] una parte excluida
       *[other] { $count } partes excluidas
    }
the-whole-photo = La foto entera
a-rectangle-of = Un rectángulo de { $width } × { $height } px
an-outline-with-corners = Un contorno de { $count } esquinas

## Photos of the strip

not-opened-yet = aún sin abrir
cannot-be-read = no se puede leer
needs-its-scale = necesita su escala
can-be-measured = se puede medir
measured-not-saved = medida, sin guardar
the-sample-photo-could-not-be = No se pudo escribir la foto de muestra en { $folder } ({ $error }); haga sitio en el disco e inténtelo de nuevo
this-is-not-the-photo-as = Esta no es la foto como era: el archivo ha cambiado desde entonces. Fije escala y zona de nuevo

## Work under way

poreline-met-a-fault-of-its = Poreline encontró un fallo propio y detuvo este trabajo. Su foto está intacta; envíenosla, por favor, con un informe del fallo

## Pieces of hollow and wall

pieces-of-a-phase =
    { $count ->
        [one] un trozo
       *[other] { $count } trozos, el mayor de los cuales contiene el { $per_cent } %
    }
hollows-and-walls = Huecos: { $hollows }. Paredes: { $walls }.

## One pore

not-counted-far-too-large = No contado: demasiado grande
not-counted-at-the-edge = No contado: en el borde
counted-pore = Contado
counted-but-cut-not-in-mean = Contado, pero cortado: no en los tamaños medios
shaped-by-hand = , formado a mano
of-the-median = De la mediana
times-the-median = { $times } veces

## Colours

as-the-system = Como el sistema
light = Claros
dark = Oscuros

## Figures and what they mean

count-headline-95-per-cent-interval =
    Recuento{"\u0009"}{ $headline }{"\u0009"}Intervalo del 95 % { $interval }
    {""}
nothing-is-outlined-hollows-of-a = No hay contornos: los huecos de un laberinto desembocan unos en otros, así que ninguno se cuenta por sí solo. En su lugar se pusieron líneas al azar.
nothing-is-outlined-gills-run-on = No hay contornos: las láminas siguen más allá de la foto, así que ninguna se cuenta por sí sola. En su lugar se pusieron líneas al azar.
scale-and-how = { $figure } px por mm, { $how }
as-typed-in = como se escribió
from-two-points = por dos puntos
from-ruler-marks = por marcas de regla
from-the-scale-bar = por la barra de escala
from-the-scale-card = por la tarjeta de escala
from-four-corners = por cuatro esquinas
from-a-set-up = por un montaje
as-the-file-says = como dice el archivo
what-is-in-the-interval =
    { $scale ->
        [exact] incluye la desigualdad de un sitio a otro; la escala se toma como exacta
       *[unsure] incluye la desigualdad de un sitio a otro y la incertidumbre de la escala
    }
the-interval-in-a-sentence =
    { $kind ->
        [maze-like] Aproximadamente entre { $low } y { $high } { $things } por mm: { $within }. En laberintos dibujados, un intervalo así contenía la verdad cuatro de cada cinco veces.
        [gilled] Aproximadamente entre { $low } y { $high } { $things } por mm: { $within }. No se ha comprobado con qué frecuencia un intervalo así de láminas contiene la verdad.
       *[other] Con un 95 % de confianza, la superficie tiene entre { $low } y { $high } { $things } por mm: { $within }.
    }
things-per-mm = { $things } por mm
not-known = no se sabe
the-photo-does-not-say = la foto no lo dice
very-likely = muy probable
likely = probable
rather-likely = más bien probable
doubtful = dudoso
sureness-of-1 = { $word } ({ $share } de 1)
things-counted-per-mm = { $figure } { $things } por mm
so-many-per-mm = { $figure } por mm
pores = poros
teeth = dientes
gills = láminas
hollows-counted = huecos
as-a-handbook-would-print-it-how = Como lo imprimiría un manual: cómo se reparten los anchos de los poros. No es el intervalo de una media.
as-a-handbook-would-print-it-rounded = Como lo imprimiría un manual, redondeado: en la zona no cabe ninguna línea de 1 mm, así que no hay reparto.
as-a-handbook-would-print-it = Como lo imprimiría un manual: cómo se reparten los recuentos en líneas de 1 mm de una línea a otra. No es un intervalo; la media de la zona está debajo con el suyo.
teeth-counted = Dientes contados
teeth-whose-centre-lies-in-the = Dientes cuyo centro está en la zona medida, lejos del borde de la foto.
how-drawn-out-they-are-in = Cuán alargados son en la mitad de la clasificación: 1 es redondo, 2 es el doble de largo que de ancho. Nueve de diez están dentro del intervalo.
across-along = A lo ancho / a lo largo
across-and-along-per-mm = { $across } / { $along } por mm
the-pores-are-drawn-out-so = Los poros son alargados, así que el recuento depende de la dirección: a través de ellos y a lo largo.
mean-width-of-a-pore-the = Ancho medio de un poro: el diámetro de un círculo de la misma área. El intervalo contiene la media verdadera con un 95 % de confianza.
median-of = mediana { $figure }
from-the-5th-to-the-95th = Del 5.º al 95.º de 100 poros ordenados por tamaño: cuánto difieren entre sí.
nine-in-ten = nueve de diez { $low }–{ $high }
median = mediana
tissue-between-neighbouring-pores-dissepiment-on = Tejido entre poros vecinos (disepimento), en la línea que une sus centros.
share-of-the-measured-area-that = Parte de la zona medida que es hueco y no pared.
pores-counted = Poros contados
so-many-per-mm2 = { $figure } por mm²
pores-whose-centre-lies-in-the = Poros cuyo centro está en la zona medida; una franja en el borde de la foto queda fuera, porque ahí los poros están cortados.
line-crossings = Cruces de líneas
pores-hit-by-lines-laid-at = Poros alcanzados por líneas puestas al azar. Es menos o más que el recuento a lo largo de una fila y no se debe comparar con manuales.
distance-between-neighbouring-pores-from-the = Distancia entre poros vecinos solo por la regularidad de la imagen, sin mirar poros sueltos.
by-the-white-patch = según el trozo blanco
by-the-cards-white = según el blanco de la tarjeta
indicative-only-no-white = solo orientativo: sin blanco
with-a-violet-tint = ; { $share } con tono violeta
colour = Color
mean-colour-of-the-walls-without = Color medio de las paredes, sin los huecos, en CIELAB: L* de negro a blanco, a* de verde a rojo, b* de azul a amarillo. La palabra es la del color más cercano en la lista de nombres de Poreline.
area-measured = Zona medida
so-much-left-out = { $area } mm² excluidos
the-part-of-the-surface-that = La parte de la superficie que se miró.
pixels-of-the-photo-per-millimetre = Píxeles de la foto por milímetro del hongo, con la incertidumbre típica. Toda cifra en milímetros se apoya en ello.
tilt = Inclinación
taken-out = eliminada
how-far-the-camera-was-tilted = Cuánto estaba inclinada la cámara respecto a la superficie. La imagen se enderezó antes de medir.

## The book

another-voucher-of-the-book-bears = Otro testigo del libro lleva este número

## Opening a photo of a voucher again

this-is-not-the-photo-as-it = Esta no es la foto como se midió: el archivo ha cambiado desde entonces. Fije escala y zona de nuevo
the-photo-was-straightened-by-the = La foto se enderezó con la tarjeta de escala, que se está buscando otra vez. Después pulse Medir en el paso 4, Poros
the-photo-was-straightened-by-four = La foto se enderezó con cuatro esquinas. Púlselas otra vez en el paso 2, Escala, y después mida

## What is compared

with-host-colour-and-cap-of = , con huésped, color y sombrero de { $number }
the-findings-on-photo = Los resultados de { $photo }{ $with }
all-that-stands-in-voucher = Todo lo que consta en { $number }
nothing-compared-yet = Nada todavía

## Agreement

agreement-in-numbers = concuerda en { $agrees }, cerca en { $near }, habla en contra en { $against }

## Vouchers changed twice

nothing = nada
so-many-of-them = { $count } de ellos

## Fields of a voucher

catalogue-number = Número de catálogo
such-as-af-2026-0001 = por ejemplo AF-2026-0001
date-found = Fecha del hallazgo
found-by = Encontrado por
names-with-between-them = nombres, con | entre ellos
place = Lugar
latitude-degrees = Latitud, °
from-90-to-90-such-as = de -90 a 90, por ejemplo 52.64
longitude-degrees = Longitud, °
from-180-to-180-such-as = de -180 a 180, por ejemplo -1.14
coordinates-hold-within-m = Coordenadas válidas a menos de, m
more-than-0-such-as-50 = más de 0, por ejemplo 50
habitat = Hábitat
such-as-alder-carr = por ejemplo aliseda
walk = Salida
host-wood = Madera huésped
host-tree = Árbol huésped
such-as-fagus-sylvatica = por ejemplo Fagus sylvatica
grew-from = Crecía sobre
decay-of-the-wood-1-sound = Descomposición de la madera, 1 sana a 5 deshecha
cap-width-cm = Ancho del sombrero, cm
more-than-0-such-as-4 = más de 0, por ejemplo 4,5
colour-of-the-underside = Color de la cara inferior
such-as-cream = por ejemplo crema
scientific-name = Nombre científico
such-as-trametes-hirsuta = por ejemplo Trametes hirsuta
doubt-about-the-name = Duda sobre el nombre
named-by = Nombrado por
whoever-gave-the-name = quien dio el nombre
reason-for-the-name = Razón del nombre
such-as-3-to-4-pores = por ejemplo de 3 a 4 poros por mm, zonas grises
notes = Notas
zones-on-the-cap = Zonas del sombrero
such-as-narrow-brown-and-grey = por ejemplo estrechas, pardas y grises
hairs-on-the-cap = Pelos del sombrero
such-as-velvety = por ejemplo aterciopelado
how-the-cap-bends = Cómo se dobla el sombrero
such-as-like-leather = por ejemplo como cuero
smell-when-fresh = Olor en fresco
such-as-anise = por ejemplo anís
colour-of-the-spore-print = Color de la esporada
such-as-white = por ejemplo blanco
where-it-is-kept = Dónde se conserva
such-as-in-collection = por ejemplo en colección
country = País
two-letters-such-as-gb = dos letras, por ejemplo GB
measurements = Mediciones
date-of-the-name = Fecha del nombre
what-was-done-to-the-place = Qué se hizo con el lugar
datum-of-the-coordinates = Datum de las coordenadas

## What is wrong in a field

a-latitude-alone-tells-no-place = Una latitud sola no dice ningún lugar
a-longitude-alone-tells-no-place = Una longitud sola no dice ningún lugar
a-name-can-be-replaced-by = Un nombre se puede reemplazar por otro, y queda entonces en el historial
the-name-itself-is-missing = Falta el nombre mismo
every-voucher-has-a-number = Todo testigo tiene un número
a-date-as-year-month-day = Una fecha como año-mes-día, { $hint }
a-number-hint = Un número { $hint }

## The book on the disk

open-a-book-first = Abra primero un libro
poreline-met-a-fault-of-its-own = Poreline encontró un fallo propio y se detuvo. Lo que había en el disco está como estaba; envíenos, por favor, un informe del fallo
the-demo-book-could-not-be = No se pudo hacer el libro de muestra ({ $error }); haga sitio en el disco e inténtelo de nuevo
there-is-no-book-in = No hay ningún libro en { $folder }. Elija la carpeta de un libro, o haga uno nuevo ahí
there-is-a-book-in = Ya hay un libro en { $folder }; ábralo, o elija otra carpeta. No se cambió nada
the-catalogue-number-is-taken = El número de catálogo { $number } está ocupado, quizá por otra persona hace un momento. Lea el libro de nuevo y tome el siguiente; lo que escribió sigue aquí
the-book-has-it-no-more = El libro ya no tiene { $kind } { $name }. Lea el libro de nuevo; lo que escribió sigue aquí

## Vouchers in words

name = Nombre
underside = Cara inferior
per-mm = Por mm
kind-of-not-all-photos = { $kind }, no todas
a-file-is-damaged = { $file } está dañado y se dejó como está: { $why }. Arréglelo en un editor de texto, o tómelo de una copia del libro
pooled-figure =
    { $figure } por mm, intervalo del 95 % { $low }–{ $high }, de { $count ->
        [one] una foto
       *[other] { $count } fotos
    }
not-measured = sin medir
somebody = alguien
named-on-date = {" "}el { $date }
named-by-whom = { $name }, nombrado por { $by }{ $on }{ $why }
measured-when-by-who = medido { $when } por { $who }
measured-when = medido { $when }
kind-of-surface = superficie { $kind }
unknown = desconocido

## Files of the book

making-the-file = Haciendo el archivo
the-list-is-empty-so-there = La lista está vacía, así que no hay nada que imprimir
the-book-has-no-voucher-yet-so = El libro aún no tiene testigos, así que no hay nada que guardar
the-book-states-no-licence-so = El libro no indica licencia, así que nadie puede usar los datos; añada «license» a book.json
look-whether-notes-and-photos-tell = Mire si las notas y fotos dicen los lugares de todos modos
pick-a-voucher-first-and-save = Elija primero un testigo, y guárdelo
the-report-goes-without-a-picture = El informe sigue sin una imagen de { $why }
nothing-was-saved = No se guardó nada: { $error }

## What is missing of a walk

type-date-and-place-first = Escriba primero fecha y lugar
the-date-is-written-as-year = La fecha se escribe como año-mes-día, por ejemplo 2026-10-04
how-many-walked-is-a-whole = Cuántas personas fueron es un número entero, por ejemplo 7
type-a-name-first = Escriba primero un nombre

## Work on the book

the-book-that-was-open-last = El último libro abierto ya no está en { $folder }. Ábralo desde donde está ahora, en el paso 5, Registrar
wait-until-the-book-is-written = Espere a que el libro se escriba o se lea
it-is-saved = Está guardado
pick-a-voucher-or-make-a = Elija un testigo o haga uno nuevo
opening-the-book = Abriendo el libro
making-the-book = Haciendo el libro
making-the-demo-book = Haciendo el libro de muestra
reading-the-book-anew = Leyendo el libro de nuevo
checking-the-book = Revisando el libro
saving-the-walk = Guardando la salida
the-book-cannot-be-reached = No se puede llegar al libro ({ $error }); cierre otros programas e inténtelo de nuevo
saved-file = { $file } guardado
saved-voucher = { $number } guardado
pooled-now = {"."} Ahora { $pooled }
attached-to-voucher = Adjuntado a { $number }{ $together }
mend-the-fields-that-are-marked = Arregle los campos marcados en el testigo. Aún no se guardó nada, y lo que escribió sigue ahí
saving-the-voucher = Guardando el testigo
save-the-voucher-that-is-being = Guarde el testigo que se está rellenando, y arrastre la foto otra vez
nothing-was-attached = No se adjuntó nada. { $why }, y arrastre la foto otra vez
nothing-was-attached-photo-belongs = No se adjuntó nada: esta foto ya pertenece a { $number }. Si muestra ambos ejemplares, pulse Adjuntar los resultados en el paso 5
the-file-of-a-voucher-is-damaged = El archivo de { $number } está dañado en el disco. Arréglelo en un editor de texto, o tómelo de una copia del libro; lo que escribió sigue aquí
the-two-could-not-be-put = No se pudieron juntar los dos; lo que escribió sigue aquí. Lea el libro de nuevo
which-book-is-open-could-not = No se pudo anotar qué libro está abierto para el próximo inicio ({ $error }); ábralo entonces a mano
book-and-vouchers =
    { $book }, { $count ->
        [one] un testigo
       *[other] { $count } testigos
    }
working = trabajando
the-voucher-is-not-saved-yet = El testigo aún no está guardado
keep-the-findings = Conserve los resultados
keep-the-findings-once-they-are = Conserve los resultados cuando los haya
saved-save-more-or-open-the = Guardado. Guarde más, o abra la foto siguiente
attach-the-findings-to-a-voucher = Adjunte los resultados a un testigo
save-the-findings-to-keep-them = Guarde los resultados para conservarlos

## What a crash left

what-was-open-when-poreline-ended = Lo que estaba abierto cuando Poreline terminó la última vez no se puede leer. Su archivo se apartó como { $file }
voucher-so-numbered = testigo { $number }
what-you-do-now-would-be = Lo que haga ahora se perdería si algo falla ({ $why }). Guarde resultados y testigos sobre la marcha

## Ways to a scale

two-points-on-the-photo = Dos puntos en la foto
ruler = Regla
scale-card = Tarjeta de escala
corners-of-a-rectangle = Esquinas de un rectángulo
a-saved-set-up = Un montaje guardado
what-the-file-says = Lo que dice el archivo
type-pixels-per-millimetre = Escribir píxeles por milímetro
as-it-stands-in-the-book = Como consta en el libro
click-both-ends-of-a-length = Pulse los dos extremos de una longitud conocida
the-bar-is-found-by-itself = La barra se busca sola; usted escribe cuánto mide
drag-along-the-rulers-edge-its = Arrastre por el borde de la regla; sus marcas se buscan solas
porelines-own-card-printed-with-poreline = La tarjeta propia de Poreline, impresa con `poreline card`, se busca sola, y se elimina la inclinación de la cámara
click-the-corners-of-a-rectangle = Pulse las esquinas de un rectángulo conocido que esté sobre la superficie; se elimina la inclinación de la cámara
the-scale-of-a-photo-by = La escala de una foto de la misma cámara a la misma distancia, guardada antes
microscopes-and-scanners-write-the-scale = Los microscopios y escáneres escriben la escala en el archivo; nadie la ha comprobado
the-number-that-you-know-from = El número que usted conoce por otra foto tomada igual
the-scale-by-which-this-photo = La escala con que se midió esta foto para su testigo
looking-for-the-scale-bar = Buscando la barra de escala
reading-the-ruler = Leyendo la regla
looking-for-the-scale-card = Buscando la tarjeta de escala
straightening-the-photo = Enderezando la foto
does-the-set-up-fit-see = ¿Encaja el montaje? Véase abajo
is-this-scale-right-see-below = ¿Es correcta esta escala? Véase abajo
use-it-all-the-same = Usarlo de todos modos
the-scale-is-right = La escala es correcta
choose-another-way-the-file-says = Elija otra manera: el archivo no dice nada
choose-another-way-the-book-says = Elija otra manera: el libro no dice nada
press-find-the-scale-card = Pulse Buscar la tarjeta de escala
press-straighten-the-photo = Pulse Enderezar la foto
click-one-end-of-the-ruler-or = Pulse en la foto un extremo de la regla o barra de escala
now-click-the-other-end = Ahora pulse el otro extremo
type-the-length-between-the-two = Escriba la longitud entre los dos puntos
type-how-many-pixels-make-one = Escriba cuántos píxeles hacen un milímetro
not-a-number = «{ $typed }» no es un número; escriba por ejemplo 85,2
press-find-the-scale-bar = Pulse Buscar la barra de escala
pick-the-scale-bar-among-the = Elija la barra de escala entre los trazos hallados
type-how-long-the-scale-bar = Escriba cuánto mide la barra de escala
drag-along-the-rulers-edge-on = Arrastre en la foto por el borde de la regla
press-read-the-ruler = Pulse Leer la regla
pick-one-of-the-saved-set = Elija uno de los montajes guardados
click-a-corner-of-the-rectangle-on = Pulse una esquina del rectángulo en la foto
click-the-next-corner-along-its = Pulse la esquina siguiente, a lo ancho
click-the-third-corner = Pulse la tercera esquina
click-the-last-corner = Pulse la última esquina
type-the-rectangles-width-and-height = Escriba el ancho y el alto del rectángulo
no-scale-bar-was-found-on = No se halló ninguna barra de escala en esta foto. Si la hay, elija «Dos puntos en la foto» y pulse sus dos extremos.

## What is told of a scale

told-by-the-ticks = Según las marcas
the-ticks-were-found-but-not = Se hallaron las marcas, pero no lo que hay entre dos de ellas: puede ser { $names }. Mire la regla y elíjalo en «De marca a marca».
the-file-says-a-scale = El archivo dice { $scale } px por mm ({ $source })
how-long-the-bar-is = La barra mide { $length } px. Se excluye con su rótulo.
the-card-was-found-and-is = La tarjeta se halló, y se excluye sola.
straightened-picture = Imagen enderezada: se ha eliminado una inclinación de { $degrees }°
stroke-so-long = { $number }: { $length } px de largo
the-scale-bar-and-its-label = La barra de escala y su rótulo se excluyen solos.
the-ruler-is-left-out-by = La regla se excluye sola, hasta donde llegan sus marcas.
the-scale-card-is-left-out = La tarjeta de escala se excluye sola.
as-you-chose = como usted eligió
told-by-the-long-and-the = según las largas y las cortas
ticks-found = { $count } marcas halladas, separadas { $between }, { $how }.
standard-error-of-the-scale = Error típico de la escala: { $per_cent } %.
marks-out-of-line =
    { $count ->
        [one] Una marca fuera de lugar no se usó, y está tachada
       *[other] { $count } marcas fuera de lugar no se usaron, y están tachadas
    } en la foto.

## Set-ups

does-not-fit-this-photo = , no encaja con esta foto
set-up-in-words = { $name }: { $figure } px por mm{ $doubt }
saved-the-set-up = Guardado el montaje «{ $name }». Otras fotos de esta cámara a esta distancia pueden tomar de él su escala
type-a-name-for-the-set = Escriba un nombre para el montaje
no-name-for-a-set-up = «{ $name }» no puede ser el nombre de un montaje; use letras, cifras, espacios, guiones y puntos
there-is-no-home-folder-to = No hay carpeta personal donde guardar montajes

## Settings taken up again

the-photo-could-not-be-straightened = La foto no se pudo enderezar como antes, así que zona y correcciones ya no están. Fije la escala de nuevo en el paso 2

## How far each step is

parts-are-left-out =
    { $count ->
        [one] Hay una parte excluida
       *[other] Hay { $count } partes excluidas
    }
step-pores = Poros
record = Registrar
step-done = hecho
needs-you = le espera
later = después
cancelled-open-a-photo = Cancelado. Abra una foto
open-a-photo-of-the-underside = Abra una foto de la cara inferior
how-many-pixels-make-a-millimetre = Cuántos píxeles hacen un milímetro
which-part-of-the-surface-to = Qué parte de la superficie medir
measure-and-look-at-what-was = Mida, y mire lo hallado
opening = abriendo
cancelled-still-photo = Cancelado. Sigue { $photo }
looking = buscando
stopped-then = Parado. { $what }
this-gives-no-scale-yet-see = Esto no da todavía ninguna escala; véase abajo
share-left-out-as-unusable = {"."} El { $share } de la foto está excluido por inservible
draw-an-area-or-press-whole = Dibuje una zona, o pulse Foto entera
the-scale-line-lies-in-it = { $area }. La línea de escala está dentro
the-scale-line-lies-in-the = La línea de escala está en la zona. Dibuje una zona solo de poros
measuring = midiendo
starting-to-measure = Empezando a medir
measure-once-the-scale-is-set = Mida, cuando esté fijada la escala
cancelled-press-measure-to-begin-again = Cancelado. Pulse Medir para empezar de nuevo
ready-press-measure = Listo. Pulse Medir
correcting = corrigiendo
cancelled-still-findings = Cancelado. Siguen { $findings }

## White reference

colours-are-referred-to-the-white = Los colores se refieren al blanco que usted marcó.
colours-are-referred-to-the-cards = Los colores se refieren al blanco de la tarjeta.
without-one-colours-are-indicative-only = Sin él, los colores son solo orientativos.

# Words of the engine, which are looked up by what they say: the ids are free.

## Kinds of surface

word-smooth = lisa
word-poroid = poroide
word-maze-like = laberíntica
word-gilled = laminada
word-toothed = dentada
word-undecided = indecisa

## Parts of an uncertainty

word-place-to-place = de un sitio a otro
word-scale = escala
word-outlines = contornos

## What measuring is at

word-looking-for-the-scale = Buscando la escala
word-finding-the-usable-part = Buscando la parte utilizable
word-finding-the-spacing = Determinando el espaciado
word-telling-hollows-from-walls = Distinguiendo huecos de paredes
word-tracing-outlines = Trazando contornos
word-counting = Contando

## Why something is left out

word-left-out-by-hand = excluido a mano
word-dark-surround = entorno oscuro
word-strip-along-the-edge = franja en el borde
word-no-pores-to-be-seen = no se ven poros
word-out-of-focus = desenfocado
word-glare-or-overexposed = reflejo o sobreexpuesto
word-too-dark = demasiado oscuro
word-not-this-surface = no es esta superficie
word-bar-ruler-or-card = barra, regla o tarjeta
word-beyond-the-photo = fuera de la foto

## Characters that are compared

word-underside = cara inferior
word-pores-per-mm = poros por mm
word-gills-per-mm = láminas por mm
word-pore-width = ancho de los poros
word-host-wood = madera huésped
word-colour-of-the-underside = color de la cara inferior
word-cap-width = ancho del sombrero
word-agrees = concuerda
word-near = cerca
word-speaks-against = habla en contra

## What a voucher can say

word-hardwood = frondosa
word-conifer = conífera
word-log = tronco caído
word-stump = tocón
word-stick = rama
word-standing-tree = árbol en pie
word-wound = herida

## Corrections

word-joined = unido
word-split = dividido
word-deleted = borrado
word-added = añadido
word-drawn = dibujado

## Months

word-jan = ene
word-feb = feb
word-mar = mar
word-apr = abr
word-may = may
word-jun = jun
word-jul = jul
word-aug = ago
word-sep = sep
word-oct = oct
word-nov = nov
word-dec = dic

## Where the book is wrong

word-look = mirar
word-wrong = mal

## Colours

word-in-part-with-a-violet-tint = , en parte con tono violeta
word-with-a-violet-tint = {" "}con tono violeta
word-whitish = blanquecino
word-cream = crema
word-buff = beis
word-straw-yellow = amarillo paja
word-yellow = amarillo
word-orange = naranja
word-ochre = ocre
word-tan = tostado
word-cinnamon = canela
word-rusty-brown = pardo óxido
word-brown = pardo
word-reddish-brown = pardo rojizo
word-dark-brown = pardo oscuro
word-greyish-brown = pardo grisáceo
word-pinkish-buff = beis rosado
word-pinkish = rosado
word-red = rojo
word-pale-violet = violeta pálido
word-violet-grey = gris violáceo
word-violet = violeta
word-purplish-brown = pardo purpúreo
word-pale-grey = gris pálido
word-grey = gris
word-bluish-grey = gris azulado
word-dark-grey = gris oscuro
word-blackish = negruzco
word-olive = oliva
word-greenish = verdoso

## Keys

word-key-ctrl = Ctrl
word-key-shift = Mayús
word-key-pagedown = Av Pág
word-key-pageup = Re Pág
word-key-plus = Más
word-key-minus = Menos
