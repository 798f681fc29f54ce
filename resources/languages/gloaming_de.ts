<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
 <context>
  <name>gloaming</name>
  <message>
   <source>From empty the device never starts. What is said of its course holds for a beginning with a full store.</source>
   <translation>Mit leerem Speicher startet das Gerät nie. Was über seinen Verlauf gesagt wird, gilt für einen Beginn mit vollem Speicher.</translation>
  </message>
  <message>
   <source>{title}, {size}</source>
   <translation>{title}, {size}</translation>
  </message>
  <message>
   <source>start-up</source>
   <translation>Anlauf</translation>
  </message>
  <message>
   <source>{operation} at {volts}</source>
   <translation>{operation} bei {volts}</translation>
  </message>
  <message>
   <source>full</source>
   <translation>voll</translation>
  </message>
  <message>
   <source>connects</source>
   <translation>Einschalten</translation>
  </message>
  <message>
   <source>cuts off</source>
   <translation>Abschalten</translation>
  </message>
  <message>
   <source>indicator</source>
   <translation>Anzeige</translation>
  </message>
  <message>
   <source>More happens in this run than can be followed; log a shorter stretch.</source>
   <translation>In diesem Messlauf geschieht mehr, als sich verfolgen lässt; einen kürzeren Abschnitt aufzeichnen.</translation>
  </message>
  <message>
   <source>The log has no date, so it is taken to begin on Monday at midnight.</source>
   <translation>Der Messlauf hat kein Datum; als Beginn gilt Montag, Mitternacht.</translation>
  </message>
  <message>
   <source>The device is taken as connected when the log begins.</source>
   <translation>Das Gerät gilt zu Beginn des Messlaufs als eingeschaltet.</translation>
  </message>
  <message>
   <source>The device is taken as not connected when the log begins.</source>
   <translation>Das Gerät gilt zu Beginn des Messlaufs als nicht eingeschaltet.</translation>
  </message>
  <message>
   <source>Fitted to {runs}</source>
   <translation>Angepasst an {runs}</translation>
  </message>
  <message>
   <source>These runs determine nothing of the {kind}; fit one of its values.</source>
   <translation>Diese Messläufe bestimmen nichts von: {kind}; einen seiner Werte anpassen.</translation>
  </message>
  <message>
   <source>A night in the dark, 12 h, from nearly full</source>
   <translation>Eine Nacht im Dunkeln, 12 h, ab fast voll</translation>
  </message>
  <message>
   <source>Three days in the dark with the device taken off, from nearly full</source>
   <translation>Drei Tage im Dunkeln ohne das Gerät, ab fast voll</translation>
  </message>
  <message>
   <source>Three days in the dark with the operations switched off, from nearly full</source>
   <translation>Drei Tage im Dunkeln mit abgeschalteten Vorgängen, ab fast voll</translation>
  </message>
  <message>
   <source>A day of charge under a lamp of {lux}, known to {share}</source>
   <translation>Ein Tag Laden unter einer Lampe von {lux}, bekannt auf {share}</translation>
  </message>
  <message>
   <source>A steady current of {current} from rest in the dark, about {time}, known to {share}, with many readings</source>
   <translation>Ein gleichmäßiger Strom von {current} aus der Ruhe im Dunkeln, etwa {time}, bekannt auf {share}, mit vielen Ablesungen</translation>
  </message>
  <message>
   <source>A week as it hangs</source>
   <translation>Eine Woche, wie es hängt</translation>
  </message>
  <message>
   <source>Pulses in the dark, a reading every {time}</source>
   <translation>Pulse im Dunkeln, alle {time} eine Ablesung</translation>
  </message>
  <message>
   <source>{label} of “{name}”</source>
   <translation>{label} von „{name}“</translation>
  </message>
  <message>
   <source>{path} cannot be fitted; it is not a number that varies without steps, or it is left empty.</source>
   <translation>{path} lässt sich nicht anpassen; es ist keine stufenlose Zahl oder leer gelassen.</translation>
  </message>
  <message>
   <source>Choose at least one value to fit.</source>
   <translation>Mindestens einen Wert zum Anpassen wählen.</translation>
  </message>
  <message>
   <source>Choose each value only once.</source>
   <translation>Jeden Wert nur einmal wählen.</translation>
  </message>
  <message>
   <source>{n} readings are too few for {count} values; log more, or fit fewer.</source>
   <translation>{n} Messwerte sind zu wenige für {count} Werte; mehr aufzeichnen oder weniger anpassen.</translation>
  </message>
  <message>
   <source>{path} is no value of this scenario; gloaming schema lists all.</source>
   <translation>{path} ist kein Wert dieses Szenarios; gloaming schema nennt alle.</translation>
  </message>
  <message>
   <source>The log goes on below the cut-off at {volts}; it is compared up to there, after {time}.</source>
   <translation>Der Messlauf geht unter die Abschaltung bei {volts} weiter; verglichen wird bis dorthin, nach {time}.</translation>
  </message>
  <message>
   <source>Voltmeter</source>
   <translation>Voltmeter</translation>
  </message>
  <message>
   <source>Illuminance</source>
   <translation>Beleuchtungsstärke</translation>
  </message>
  <message>
   <source>Current drawn</source>
   <translation>Entnommener Strom</translation>
  </message>
  <message>
   <source>Clock of the logger</source>
   <translation>Uhr des Datenloggers</translation>
  </message>
  <message>
   <source>Leakage of the store</source>
   <translation>Leckstrom des Speichers</translation>
  </message>
  <message>
   <source>Self-discharge of the cell</source>
   <translation>Selbstentladung der Zelle</translation>
  </message>
  <message>
   <source>Leakage and balancing of the store</source>
   <translation>Leckstrom und Symmetrierung</translation>
  </message>
  <message>
   <source>Light not converted by the cells</source>
   <translation>Licht, das die Zellen nicht umwandeln</translation>
  </message>
  <message>
   <source>Light too weak for the charger</source>
   <translation>Licht zu schwach für den Laderegler</translation>
  </message>
  <message>
   <source>Panel not at its maximum power point</source>
   <translation>Modul nicht im MPP</translation>
  </message>
  <message>
   <source>Not taken because the store is full</source>
   <translation>Nicht genutzt, weil der Speicher voll ist</translation>
  </message>
  <message>
   <source>Held back by a current limit</source>
   <translation>Durch Stromgrenze zurückgehalten</translation>
  </message>
  <message>
   <source>Lost in the store's resistance</source>
   <translation>Verlust im Speicherwiderstand</translation>
  </message>
  <message>
   <source>Charger's quiescent current</source>
   <translation>Eigenstrom des Ladereglers</translation>
  </message>
  <message>
   <source>Lost in the regulator</source>
   <translation>Verlust im Regler</translation>
  </message>
  <message>
   <source>Start-ups</source>
   <translation>Anläufe</translation>
  </message>
  <message>
   <source>Sleep</source>
   <translation>Schlafstrom</translation>
  </message>
  <message>
   <source>Lost in the blocking diode</source>
   <translation>Verlust in der Sperrdiode</translation>
  </message>
  <message>
   <source>Lost in the charger</source>
   <translation>Verlust im Laderegler</translation>
  </message>
  <message>
   <source>Left in the store</source>
   <translation>Im Speicher verblieben</translation>
  </message>
  <message>
   <source>amorphous silicon</source>
   <translation>amorphes Silizium</translation>
  </message>
  <message>
   <source>crystalline silicon</source>
   <translation>kristallines Silizium</translation>
  </message>
  <message>
   <source>gallium-arsenide</source>
   <translation>Galliumarsenid</translation>
  </message>
  <message>
   <source>dye-sensitised</source>
   <translation>Farbstoffzelle</translation>
  </message>
  <message>
   <source>organic</source>
   <translation>organisch</translation>
  </message>
  <message>
   <source>perovskite</source>
   <translation>Perowskit</translation>
  </message>
  <message>
   <source>{n} × {area} cm², {kind}</source>
   <translation>{n} × {area} cm², {kind}</translation>
  </message>
  <message>
   <source>{n} × {title}</source>
   <translation>{n} × {title}</translation>
  </message>
  <message>
   <source>as it is</source>
   <translation>wie vorhanden</translation>
  </message>
  <message>
   <source>the cycle takes no charge; is the current's sign turned, or the zero shifted?</source>
   <translation>der Zyklus entnimmt keine Ladung; ist das Vorzeichen des Stroms vertauscht oder der Nullpunkt verschoben?</translation>
  </message>
  <message>
   <source>a cycle from {start} s to {end} s does not lie within the capture, which lasts {span} s</source>
   <translation>ein Zyklus von {start} s bis {end} s liegt nicht in der Aufzeichnung; sie dauert {span} s</translation>
  </message>
  <message>
   <source>This design cannot be judged: some of its values lie so far apart that they cannot be computed with. Look for a wrong unit or a wrong power of ten.</source>
   <translation>Dieser Entwurf lässt sich nicht beurteilen: Einige Werte liegen so weit auseinander, dass damit nicht gerechnet werden kann. Eine falsche Einheit oder Zehnerpotenz suchen.</translation>
  </message>
  <message>
   <source>The part's data sheet, local codes and a qualified person decide.</source>
   <translation>Es entscheiden das Datenblatt des Bauteils, die örtlichen Vorschriften und eine Fachkraft.</translation>
  </message>
  <message>
   <source>Locks and escape</source>
   <translation>Schloss und Flucht</translation>
  </message>
  <message>
   <source>Decide what the lock does when the store is empty: fail-safe unlocks, fail-secure stays locked from outside. People inside must be able to leave at any time without power, and this lock must not be the only way out. Fire and building codes (such as NFPA 101 and EN 179, EN 1125 or EN 13637) apply, and a code official decides.</source>
   <translation>Festlegen, was das Schloss bei leerem Speicher tut: fail-safe entriegelt, fail-secure bleibt von außen verriegelt. Personen im Raum müssen jederzeit ohne Strom hinauskommen, und dieses Schloss darf nicht der einzige Ausgang sein. Es gelten Brandschutz- und Bauvorschriften (etwa NFPA 101 und EN 179, EN 1125 oder EN 13637), und die zuständige Behörde entscheidet.</translation>
  </message>
  <message>
   <source>Valves without power</source>
   <translation>Ventile ohne Strom</translation>
  </message>
  <message>
   <source>A latching valve stays where it is when the energy ends. Decide which position is safe, keep the energy for one last move in the reserve, and do not rely on it alone against flooding, gas, scalding or pressure.</source>
   <translation>Ein bistabiles Ventil bleibt stehen, wo es ist, wenn die Energie ausgeht. Festlegen, welche Stellung sicher ist, die Energie für eine letzte Bewegung in der Notreserve halten und sich gegen Überflutung, Gas, Verbrühen oder Druck nicht allein darauf verlassen.</translation>
  </message>
  <message>
   <source>Vents and flaps</source>
   <translation>Lüftung und Klappen</translation>
  </message>
  <message>
   <source>Decide where the vent rests when the energy ends. It must not be the only means of smoke extraction, fire separation or combustion air, and moving leaves pinch fingers.</source>
   <translation>Festlegen, wo die Klappe steht, wenn die Energie ausgeht. Sie darf nicht das einzige Mittel für Rauchabzug, Brandabschnitt oder Verbrennungsluft sein, und bewegte Flügel quetschen Finger.</translation>
  </message>
  <message>
   <source>Moving parts</source>
   <translation>Bewegte Teile</translation>
  </message>
  <message>
   <source>A motor that is started by the light may move without warning. Guard pinch points, limit its force, and disconnect the store before working on it.</source>
   <translation>Ein Motor, den das Licht startet, kann sich ohne Warnung bewegen. Quetschstellen abdecken, die Kraft begrenzen und vor Arbeiten daran den Speicher abklemmen.</translation>
  </message>
  <message>
   <source>Heat behind glass</source>
   <translation>Hitze hinter Glas</translation>
  </message>
  <message>
   <source>Units in series</source>
   <translation>Einheiten in Reihe</translation>
  </message>
  <message>
   <source>No energy is reserved for a last safe action in this scenario.</source>
   <translation>In diesem Szenario ist keine Energie für eine letzte sichere Handlung vorbehalten.</translation>
  </message>
  <message>
   <source>Discharged too far</source>
   <translation>Zu tief entladen</translation>
  </message>
  <message>
   <source>Electrolytic capacitors</source>
   <translation>Elektrolytkondensatoren</translation>
  </message>
  <message>
   <source>capacitors</source>
   <translation>Kondensatoren</translation>
  </message>
  <message>
   <source>Supercapacitors</source>
   <translation>Superkondensatoren</translation>
  </message>
  <message>
   <source>supercapacitors</source>
   <translation>Superkondensatoren</translation>
  </message>
  <message>
   <source>Electrolyte</source>
   <translation>Elektrolyt</translation>
  </message>
  <message>
   <source>In series, {parts} share the voltage by their capacitance while charging and by their leakage while standing, so one unit can pass its rating though the bank does not. Balance them, leave headroom for tolerance and age, and measure each unit.</source>
   <translation>In Reihe teilen sich {parts} die Spannung beim Laden nach ihrer Kapazität und im Stehen nach ihrem Leckstrom; so kann eine Einheit ihren Nennwert überschreiten, obwohl die Bank es nicht tut. Symmetrieren, Spielraum für Toleranz und Alter lassen und jede Einheit messen.</translation>
  </message>
  <message>
   <source>Lithium cells</source>
   <translation>Lithiumzellen</translation>
  </message>
  <message>
   <source>Only the threshold protects</source>
   <translation>Nur die Schwelle schützt</translation>
  </message>
  <message>
   <source>Glass and heights</source>
   <translation>Glas und Höhe</translation>
  </message>
  <message>
   <source>The load disconnects at {off} V, but the store is empty at {empty} V and harmed below. The forecast takes it that a protection circuit cuts off there; without one, raise the disconnect threshold.</source>
   <translation>Der Verbraucher schaltet bei {off} V ab, doch der Speicher ist bei {empty} V leer und nimmt darunter Schaden. Die Vorhersage nimmt an, dass dort eine Schutzschaltung trennt; ohne sie die Abschaltspannung erhöhen.</translation>
  </message>
  <message>
   <source>An electrolytic has a polarity: reversed or above its rated voltage it vents hot gas and may burst. Keep the space above its vent free. Heat shortens its life. After some two years in store, form it again before use: rated voltage through 1 kΩ for half an hour to an hour is usual.</source>
   <translation>Ein Elko hat eine Polung: Verpolt oder über der Nennspannung bläst er heißes Gas ab und kann platzen. Den Raum über seinem Ventil freihalten. Wärme verkürzt die Lebensdauer. Nach etwa zwei Jahren Lagerung vor Gebrauch neu formieren: Üblich ist Nennspannung über 1 kΩ für eine halbe bis eine Stunde.</translation>
  </message>
  <message>
   <source>A charged supercapacitor drives a very high current through a short circuit: insulate the terminals, take off rings and watches, and discharge it through a resistor before handling or transport. Never exceed its rated voltage or temperature; the gas pressure then opens the vent. Mind the polarity; reversal ages or destroys it.</source>
   <translation>Ein geladener Superkondensator treibt bei Kurzschluss einen sehr hohen Strom: Anschlüsse isolieren, Ringe und Uhren ablegen, vor Handhabung oder Transport über einen Widerstand entladen. Nennspannung und Nenntemperatur nie überschreiten, sonst öffnet der Gasdruck das Ventil. Polung beachten; Verpolen altert oder zerstört ihn.</translation>
  </message>
  <message>
   <source>Hybrid capacitors</source>
   <translation>Hybridkondensatoren</translation>
  </message>
  <message>
   <source>Many supercapacitors hold acetonitrile, which is flammable and poisonous. Do not open, crush or burn them; if one leaks, leave and air the room, and keep it off the skin.</source>
   <translation>Viele Superkondensatoren enthalten Acetonitril, das brennbar und giftig ist. Nicht öffnen, quetschen oder verbrennen; läuft einer aus, den Raum verlassen und lüften und Hautkontakt meiden.</translation>
  </message>
  <message>
   <source>Charge only between {low} and {high} °C and within the cell's own window of voltage and current; a lithium cell charged below 0 °C plates lithium unless its data sheet allows it. A protection circuit against over-charge, over-discharge and short circuit is needed. Do not crush, pierce or heat it. Product safety (IEC 62133-2) and transport (UN 38.3) are two separate proofs.</source>
   <translation>Nur zwischen {low} und {high} °C und in den eigenen Grenzen der Zelle für Spannung und Strom laden; unter 0 °C scheidet eine Lithiumzelle beim Laden Lithium ab, wenn ihr Datenblatt es nicht erlaubt. Nötig ist eine Schutzschaltung gegen Überladen, Tiefentladen und Kurzschluss. Nicht quetschen, durchstechen oder erhitzen. Produktsicherheit (IEC 62133-2) und Transport (UN 38.3) sind zwei getrennte Nachweise.</translation>
  </message>
  <message>
   <source>Coin cells and children</source>
   <translation>Knopfzellen und Kinder</translation>
  </message>
  <message>
   <source>Cells in series</source>
   <translation>Zellen in Reihe</translation>
  </message>
  <message>
   <source>No charge control</source>
   <translation>Keine Laderegelung</translation>
  </message>
  <message>
   <source>A diode alone does not stop charging. Left in the sun this panel reaches {sun} V, and the units are rated {rated} V together. The forecast takes it that something ends the charge at {full} V: a clamp or a switch that stands the panel's full current.</source>
   <translation>Eine Diode allein beendet das Laden nicht. In der Sonne erreicht dieses Modul {sun} V, und die Nennspannung der Kondensatoren ist zusammen {rated} V. Die Vorhersage nimmt an, dass etwas das Laden bei {full} V beendet: eine Klemmschaltung oder ein Schalter, der den vollen Modulstrom verträgt.</translation>
  </message>
  <message>
   <source>Panels are often glass: carry them with gloves and do not bend them. Mounting above head height needs a proper ladder or platform and fixings that hold what falls if one lets go. Keep clear of mains wiring and lamps.</source>
   <translation>Module sind oft aus Glas: mit Handschuhen tragen und nicht biegen. Montage über Kopfhöhe braucht eine geeignete Leiter oder Bühne und Befestigungen, die auch halten, wenn eine nachgibt. Abstand zu Netzleitungen und Leuchten halten.</translation>
  </message>
  <message>
   <source>A large array</source>
   <translation>Große Modulfläche</translation>
  </message>
  <message>
   <source>Frost</source>
   <translation>Frost</translation>
  </message>
  <message>
   <source>A hybrid (lithium-ion) capacitor is harmed below its lower limit, here {volts} V a unit: cut the load off above it, never discharge it to zero or short it, and treat it as a lithium part in transport.</source>
   <translation>Ein Hybridkondensator (Lithium-Ionen) nimmt unter seiner unteren Grenze Schaden, hier {volts} V je Einheit: den Verbraucher darüber abschalten, nie auf null entladen oder kurzschließen und beim Transport als Lithiumbauteil behandeln.</translation>
  </message>
  <message>
   <source>A swallowed coin cell burns the gullet within two hours. If the cell is a coin or button type, close its compartment with a tool or two separate actions and mark it; several countries require this by law (in the United States 16 CFR 1263). Call emergency services at once if one may have been swallowed.</source>
   <translation>Eine verschluckte Knopfzelle verätzt die Speiseröhre binnen zwei Stunden. Ist die Zelle eine Knopfzelle, ihr Fach so verschließen, dass es nur mit Werkzeug oder zwei getrennten Handgriffen aufgeht, und kennzeichnen; mehrere Länder schreiben das vor (in den USA 16 CFR 1263). Beim Verdacht auf Verschlucken sofort den Notruf wählen.</translation>
  </message>
  <message>
   <source>Cells in series drift apart. Each one needs its own voltage watched and balanced by its protection circuit.</source>
   <translation>Zellen in Reihe laufen auseinander. Die Schutzschaltung muss die Spannung jeder einzelnen überwachen und ausgleichen.</translation>
  </message>
  <message>
   <source>A diode alone limits neither voltage nor current nor temperature. A lithium cell needs a charger that ends the charge and refuses it in the cold, whatever light falls on the panel.</source>
   <translation>Eine Diode allein begrenzt weder Spannung noch Strom noch Temperatur. Eine Lithiumzelle braucht einen Laderegler, der das Laden beendet und es in der Kälte verweigert, gleich wie viel Licht auf das Modul fällt.</translation>
  </message>
  <message>
   <source>Some {area} m² of panel give far more voltage and current when the sun reaches them than the lamps let expect; they cannot be switched off while light falls on them.</source>
   <translation>Etwa {area} m² Modulfläche geben in der Sonne weit mehr Spannung und Strom ab, als die Lampen erwarten lassen; solange Licht darauf fällt, sind sie nicht abzuschalten.</translation>
  </message>
  <message>
   <source>Below {least} °C this cell must take no charge: lithium plates out and may short it weeks later. A month's mean hides its nights. Use a charger that measures the cell's temperature, or a store that bears frost.</source>
   <translation>Unter {least} °C darf diese Zelle nicht geladen werden: Lithium scheidet sich ab und kann sie Wochen später kurzschließen. Das Mittel eines Monats verbirgt seine Nächte. Einen Laderegler nehmen, der die Zellentemperatur misst, oder einen Speicher, der Frost verträgt.</translation>
  </message>
  <message>
   <source>Behind sunlit glass and in closed housings it may be 60 °C and more while the air is mild. Cells and supercapacitors age fast there, and cells may catch fire; keep the store in the shade of the panel and out of the pane's corner, and measure on a sunny day. A dark panel close to a pane may also crack it.</source>
   <translation>Hinter besonntem Glas und in geschlossenen Gehäusen können es 60 °C und mehr sein, während die Luft mild ist. Zellen und Superkondensatoren altern dort schnell, und Zellen können sich entzünden; den Speicher im Schatten des Moduls und fern der Scheibenecke halten und an einem Sonnentag messen. Ein dunkles Modul dicht an einer Scheibe kann sie auch springen lassen.</translation>
  </message>
  <message>
   <source>store at {volts}</source>
   <translation>Speicher bei {volts}</translation>
  </message>
  <message>
   <source>efficiency</source>
   <translation>Wirkungsgrad</translation>
  </message>
  <message>
   <source>charging current</source>
   <translation>Ladestrom</translation>
  </message>
  <message>
   <source>data-sheet point</source>
   <translation>Datenblattpunkt</translation>
  </message>
  <message>
   <source>lit period</source>
   <translation>Lichtzeit</translation>
  </message>
  <message>
   <source>operation</source>
   <translation>Vorgang</translation>
  </message>
  <message>
   <source>phase</source>
   <translation>Phase</translation>
  </message>
  <message>
   <source>{noun} {number}</source>
   <translation>{noun} {number}</translation>
  </message>
  <message>
   <source>operation {number}</source>
   <translation>Vorgang {number}</translation>
  </message>
  <message>
   <source>Supercapacitors in series</source>
   <translation>Superkondensatoren in Reihe</translation>
  </message>
  <message>
   <source>Flat power supercapacitor</source>
   <translation>Flache Superkondensatoren</translation>
  </message>
  <message>
   <source>{title}, {n} units</source>
   <translation>{title}, {n} Einheiten</translation>
  </message>
  <message>
   <source>As it is now</source>
   <translation>Wie es jetzt ist</translation>
  </message>
  <message>
   <source>Own: {title}</source>
   <translation>Eigenes: {title}</translation>
  </message>
  <message>
   <source>In its course it works all the same.</source>
   <translation>In seinem Verlauf arbeitet es trotzdem.</translation>
  </message>
  <message>
   <source>The panel gives less than the converter needs; the converter does not run in this light.</source>
   <translation>Das Modul gibt weniger, als der Wandler braucht; der Wandler läuft bei diesem Licht nicht.</translation>
  </message>
  <message>
   <source>In this light the panel reaches at most {volts} V, so the store never becomes full through the diode.</source>
   <translation>Bei diesem Licht erreicht das Modul höchstens {volts} V; über die Diode wird der Speicher also nie voll.</translation>
  </message>
  <message>
   <source>The store sets the panel's voltage; the working point moves as it fills.</source>
   <translation>Der Speicher bestimmt die Modulspannung; der Arbeitspunkt wandert beim Füllen.</translation>
  </message>
  <message>
   <source>maximum power point</source>
   <translation>MPP</translation>
  </message>
  <message>
   <source>The converter runs, but in this light it cannot start from an empty store.</source>
   <translation>Der Wandler läuft, kann bei diesem Licht aber nicht mit leerem Speicher starten.</translation>
  </message>
  <message>
   <source>The converter takes {share} % of the largest power and passes on {kept} % of it.</source>
   <translation>Der Wandler nimmt {share} % der größten Leistung auf und gibt davon {kept} % weiter.</translation>
  </message>
  <message>
   <source>store at cut-off</source>
   <translation>Abschaltspannung</translation>
  </message>
  <message>
   <source>connect voltage</source>
   <translation>Einschaltspannung</translation>
  </message>
  <message>
   <source>store full</source>
   <translation>Vollspannung</translation>
  </message>
  <message>
   <source>operating point</source>
   <translation>Arbeitspunkt</translation>
  </message>
  <message>
   <source>Promising, being checked: {labels}.</source>
   <translation>Aussichtsreich, wird geprüft: {labels}.</translation>
  </message>
  <message>
   <source>{reason} It also fails {names}.</source>
   <translation>{reason} Auch nicht erfüllt: {names}.</translation>
  </message>
  <message>
   <source>No single value seems enough; trying other stores.</source>
   <translation>Ein einzelner Wert reicht offenbar nicht; andere Speicher werden geprüft.</translation>
  </message>
  <message>
   <source>Balancing</source>
   <translation>Symmetrierung</translation>
  </message>
  <message>
   <source>active</source>
   <comment>balancing</comment>
   <translation>aktiv</translation>
  </message>
  <message>
   <source>No single change is enough; looking for a pair.</source>
   <translation>Keine einzelne Änderung reicht; es wird nach zweien gesucht.</translation>
  </message>
  <message>
   <source>No two changes are enough; looking for three.</source>
   <translation>Auch zwei Änderungen reichen nicht; es wird nach dreien gesucht.</translation>
  </message>
  <message>
   <source>No change tried is enough: {faults}</source>
   <translation>Keine der geprüften Änderungen reicht: {faults}</translation>
  </message>
  <message>
   <source>Store</source>
   <translation>Speicher</translation>
  </message>
  <message>
   <source>own: {title}</source>
   <translation>eigenes: {title}</translation>
  </message>
  <message>
   <source>Runs as it is.</source>
   <translation>Läuft, wie es ist.</translation>
  </message>
  <message>
   <source>No single change is enough.</source>
   <translation>Keine einzelne Änderung reicht.</translation>
  </message>
  <message>
   <source>No two changes are enough.</source>
   <translation>Auch zwei Änderungen reichen nicht.</translation>
  </message>
  <message>
   <source>{label} {old} → {new}</source>
   <translation>{label} {old} → {new}</translation>
  </message>
  <message>
   <source>{label}, “{part}”</source>
   <translation>{label}, „{part}“</translation>
  </message>
  <message>
   <source>{label} → {new}</source>
   <translation>{label} → {new}</translation>
  </message>
  <message>
   <source>The store counts as worn out after {n} years; {asked} are asked for.</source>
   <translation>Der Speicher gilt nach {n} Jahren als verbraucht; verlangt sind {asked}.</translation>
  </message>
  <message>
   <source>A full store serves {n} operations without light; {asked} are asked for.</source>
   <translation>Ein voller Speicher reicht ohne Licht für {n} Vorgänge; verlangt sind {asked}.</translation>
  </message>
  <message>
   <source>In steady {light} it does {n} operations an hour; {asked} are asked for.</source>
   <translation>Bei gleichmäßig {light} schafft es {n} Vorgänge je Stunde; verlangt sind {asked}.</translation>
  </message>
  <message>
   <source>In steady {light} the empty store is filled after {time}; {asked} is allowed.</source>
   <translation>Bei gleichmäßig {light} ist der leere Speicher nach {time} gefüllt; erlaubt sind {asked}.</translation>
  </message>
  <message>
   <source>A full store carries the device for {time} without light; {asked} is asked for.</source>
   <translation>Ein voller Speicher trägt das Gerät {time} ohne Licht; verlangt sind {asked}.</translation>
  </message>
  <message>
   <source>{n} of {m} amounts that are asked are missed.</source>
   <translation>{n} von {m} verlangten Mengen werden verfehlt.</translation>
  </message>
  <message>
   <source>A full store serves its operations without end; {asked} are asked for.</source>
   <translation>Ein voller Speicher reicht für Vorgänge ohne Ende; verlangt sind {asked}.</translation>
  </message>
  <message>
   <source>A full store serves 1 operation without light; {asked} are asked for.</source>
   <translation>Ein voller Speicher reicht ohne Licht für 1 Vorgang; verlangt sind {asked}.</translation>
  </message>
  <message>
   <source>In steady {light} it does all that is due, {n} an hour; {asked} are asked for, which takes a shorter interval.</source>
   <translation>Bei gleichmäßig {light} schafft es alles, was ansteht, {n} je Stunde; verlangt sind {asked}, und das braucht ein kürzeres Intervall.</translation>
  </message>
  <message>
   <source>In steady {light} it does 1 operation an hour; {asked} are asked for.</source>
   <translation>Bei gleichmäßig {light} schafft es 1 Vorgang je Stunde; verlangt sind {asked}.</translation>
  </message>
  <message>
   <source>In steady {light} the empty store never gets filled; {asked} is allowed.</source>
   <translation>Bei gleichmäßig {light} wird der leere Speicher nie voll; erlaubt sind {asked}.</translation>
  </message>
  <message>
   <source>All {n} amounts that are asked are reached.</source>
   <translation>Alle {n} verlangten Mengen werden erreicht.</translation>
  </message>
  <message>
   <source>any time</source>
   <translation>beliebig lange</translation>
  </message>
  <message>
   <source>At {ambient} °C the cell must not be charged; its window is {low} to {high} °C.</source>
   <translation>Bei {ambient} °C darf die Zelle nicht geladen werden; erlaubt sind {low} bis {high} °C.</translation>
  </message>
  <message>
   <source>At {ambient} °C the cell must not be charged; the forecast counts no charge here.</source>
   <translation>Bei {ambient} °C darf die Zelle nicht geladen werden; die Vorhersage rechnet hier ohne Laden.</translation>
  </message>
  <message>
   <source>Each cell sees up to {full} when full; it is rated {rated}.</source>
   <translation>Jede Zelle hat voll bis zu {full}; ihr Nennwert ist {rated}.</translation>
  </message>
  <message>
   <source>Standing full, the unit with the least leakage sees up to {volts}; it is rated {rated}.</source>
   <translation>Im vollen Stehen liegen am Kondensator mit dem kleinsten Leckstrom bis zu {volts}; seine Nennspannung ist {rated}.</translation>
  </message>
  <message>
   <source>In full sun the charger passes {current} into the cell; {allowed} is allowed.</source>
   <translation>In voller Sonne lädt der Laderegler die Zelle mit {current}; erlaubt: {allowed}.</translation>
  </message>
  <message>
   <source>The largest draw is {current}; the cell allows {allowed}.</source>
   <translation>Die größte Stromaufnahme ist {current}; die Zelle erlaubt {allowed}.</translation>
  </message>
  <message>
   <source>Through the load output flow up to {current}; it carries {allowed}.</source>
   <translation>Durch den Lastausgang fließen bis zu {current}; er trägt {allowed}.</translation>
  </message>
  <message>
   <source>The place is at {ambient} °C; the units are rated {rated} °C.</source>
   <translation>Am Ort herrschen {ambient} °C; die Nenntemperatur der Einheiten ist {rated} °C.</translation>
  </message>
  <message>
   <source>At {ambient} °C charging plates metallic lithium onto the electrode; the charger must refuse by itself. The forecast assumes no charging here.</source>
   <translation>Bei {ambient} °C scheidet sich beim Laden Lithium an der Elektrode ab; der Laderegler muss von selbst aufhören. Die Vorhersage rechnet hier ohne Laden.</translation>
  </message>
  <message>
   <source>At {ambient} °C, the warmest that it is in light, the cell must not be charged. The forecast goes by the mean of the month, {mean} °C, and counts that charge.</source>
   <translation>Bei {ambient} °C, dem Wärmsten bei Licht, darf die Zelle nicht geladen werden. Die Vorhersage richtet sich nach dem Monatsmittel, {mean} °C, und zählt diese Ladung mit.</translation>
  </message>
  <message>
   <source>Left in the sun the panel drives {current} into the cell; it allows {allowed}. Add a limiter.</source>
   <translation>In der Sonne treibt das Modul {current} in die Zelle; sie erlaubt {allowed}. Eine Strombegrenzung vorsehen.</translation>
  </message>
  <message>
   <source>Left in the sun the charger passes {current} into the cell; it allows {allowed}. Lower the charger's output limit.</source>
   <translation>In der Sonne lädt der Laderegler die Zelle mit {current}; sie erlaubt {allowed}. Die Strombegrenzung des Ladereglers senken.</translation>
  </message>
  <message>
   <source>Fully charged, each unit is at up to {full}; it is rated for {rated}.</source>
   <translation>Voll geladen liegen an jeder Einheit bis zu {full}; ihre Nennspannung ist {rated}.</translation>
  </message>
  <message>
   <source>Charged quickly, the unit with the least capacitance sees up to {volts}; it is rated {rated}.</source>
   <translation>Beim schnellen Laden liegen am Kondensator mit der kleinsten Kapazität bis zu {volts}; seine Nennspannung ist {rated}.</translation>
  </message>
  <message>
   <source>In full sun the panel would charge the cell with {current}, and nothing limits it; {allowed} is allowed.</source>
   <translation>In voller Sonne lädt das Modul die Zelle mit {current}, nichts begrenzt den Strom; erlaubt: {allowed}.</translation>
  </message>
  <message>
   <source>At {ambient} °C, the coldest that it is in light, lithium plates out when the cell is charged; the charger must stop by itself. The forecast goes by the mean of the month, {mean} °C, and counts that charge.</source>
   <translation>Bei {ambient} °C, dem Kältesten bei Licht, scheidet sich beim Laden Lithium ab; der Laderegler muss von selbst sperren. Die Vorhersage richtet sich nach dem Monatsmittel, {mean} °C, und zählt diese Ladung mit.</translation>
  </message>
  <message>
   <source>Charging current</source>
   <translation>Ladestrom</translation>
  </message>
  <message>
   <source>Over-voltage</source>
   <translation>Überspannung</translation>
  </message>
  <message>
   <source>A unit can reach {volts} and is rated for {rated}; it may vent or burst. Lower the full voltage, add balancing, or connect one more in series.</source>
   <translation>Eine Einheit kann {volts} erreichen, ihre Nennspannung ist {rated}; sie kann abblasen oder platzen. Ladeschlussspannung senken, symmetrieren oder eine weitere in Reihe schalten.</translation>
  </message>
  <message>
   <source>A cell may be charged to {volts} but is rated {rated}; it can vent or catch fire. Lower the full threshold.</source>
   <translation>Eine Zelle kann bis auf {volts} geladen werden, ihr Nennwert ist {rated}; sie kann abblasen oder sich entzünden. Die Ladeschlussspannung senken.</translation>
  </message>
  <message>
   <source>Cold charging</source>
   <translation>Laden bei Kälte</translation>
  </message>
  <message>
   <source>Escape route</source>
   <translation>Fluchtweg</translation>
  </message>
  <message>
   <source>A lock must let people out when the store is empty. Decide fail-safe or fail-secure with the code official; this forecast must not be the only proof.</source>
   <translation>Ein Schloss muss Personen auch bei leerem Speicher hinauslassen. Mit der zuständigen Behörde festlegen: fail-safe (öffnet stromlos) oder fail-secure (bleibt verriegelt). Diese Vorhersage darf nicht der einzige Nachweis sein.</translation>
  </message>
  <message>
   <source>Hot charging</source>
   <translation>Laden bei Hitze</translation>
  </message>
  <message>
   <source>The device runs until the store gives out, and as often and as long as is wanted.</source>
   <translation>Das Gerät läuft, bis der Speicher leer ist, und so oft und so lange wie gewünscht.</translation>
  </message>
  <message>
   <source>Starting empty, the store reaches only {volts} within {time}; the device connects at {connect}.</source>
   <translation>Von leer aus erreicht der Speicher in {time} nur {volts}; das Gerät schaltet erst bei {connect} ein.</translation>
  </message>
  <message>
   <source>With the store held at {volts}, where it suits best, the light brings {got} on average, which does not cover the {need} that device, leakage and charger take.</source>
   <translation>Bei einem Speicher auf {volts}, wo es am günstigsten ist, bringt das Licht im Mittel {got}; das deckt die {need} nicht, die Gerät, Leckstrom und Laderegler brauchen.</translation>
  </message>
  <message>
   <source>From {volts} the store lasts {time} in the dark, keeping {energy} for the last safe action; {asked}.</source>
   <translation>Ab {volts} hält der Speicher im Dunkeln {time} und behält {energy} für die letzte sichere Handlung; {asked}.</translation>
  </message>
  <message>
   <source>From {volts}, without light, {operation} pulls the terminals down by {dip} to {lowest}; down to the {need} that the device needs there are {room}.</source>
   <translation>Von {volts} aus senkt {operation} ohne Licht die Klemmenspannung um {dip} auf {lowest}; bis zu den {need}, die das Gerät braucht, sind es {room}.</translation>
  </message>
  <message>
   <source>The device stays connected all the time and completes every run that is wanted.</source>
   <translation>Das Gerät bleibt ständig eingeschaltet und führt alle gewünschten Vorgänge aus.</translation>
  </message>
  <message>
   <source>The course does not repeat; its last {n} periods stand for it.</source>
   <translation>Der Verlauf wiederholt sich nicht; seine letzten {n} Perioden stehen für ihn.</translation>
  </message>
  <message>
   <source>From empty, the device is ready {time} after the light comes on, after {n} connects; {allowed} is allowed.</source>
   <translation>Mit leerem Speicher ist das Gerät {time} nach dem ersten Licht betriebsbereit, nach {n} Einschaltversuchen; erlaubt: {allowed}.</translation>
  </message>
  <message>
   <source>The device never completes its start-up: each attempt empties the store first ({n} attempts).</source>
   <translation>Das Gerät schafft den Anlauf nie: Jeder Versuch leert den Speicher vorher ({n} Versuche).</translation>
  </message>
  <message>
   <source>With the store held at {volts}, where it suits best, the light brings {got} on average, which covers the {need} that device, leakage and charger take.</source>
   <translation>Bei einem Speicher auf {volts}, wo es am günstigsten ist, bringt das Licht im Mittel {got}; das deckt die {need}, die Gerät, Leckstrom und Laderegler brauchen.</translation>
  </message>
  <message>
   <source>The device runs until the store gives out: the dark asks nothing of it.</source>
   <translation>Das Gerät läuft, bis der Speicher leer ist: Das Dunkel verlangt nichts von ihm.</translation>
  </message>
  <message>
   <source>There is no stretch between lights that bring something, and no closure is declared.</source>
   <translation>Es gibt keine Phase ohne Licht, das etwas bringt, und keine Schließzeit ist angegeben.</translation>
  </message>
  <message>
   <source>more than {time}</source>
   <translation>mehr als {time}</translation>
  </message>
  <message>
   <source>the light never brings it anything</source>
   <translation>das Licht bringt ihm nie etwas</translation>
  </message>
  <message>
   <source>Whenever the dark begins, the device is off already; {asked}.</source>
   <translation>Immer wenn es dunkel wird, ist das Gerät schon aus; {asked}.</translation>
  </message>
  <message>
   <source>Starting at {volts}, the store lasts {time} in the dark; {asked}.</source>
   <translation>Von {volts} an reicht der Speicher im Dunkeln {time}; {asked}.</translation>
  </message>
  <message>
   <source>The device has no pulses.</source>
   <translation>Das Gerät hat keine Pulse.</translation>
  </message>
  <message>
   <source>the start-up</source>
   <translation>der Anlauf</translation>
  </message>
  <message>
   <source>“{operation}”</source>
   <translation>„{operation}“</translation>
  </message>
  <message>
   <source>From {volts}, without light, {operation} takes too much out of the store: after {time} it is down to the {need} that the device needs.</source>
   <translation>Von {volts} aus entnimmt {operation} ohne Licht dem Speicher zu viel: Nach {time} ist er auf den {need}, die das Gerät braucht.</translation>
  </message>
  <message>
   <source>At {volts}, {operation} asks for more power than the store's series resistance passes; the voltage collapses.</source>
   <translation>Bei {volts} braucht {operation} mehr Leistung, als der Speicher über seinen Serienwiderstand abgeben kann; die Spannung bricht zusammen.</translation>
  </message>
  <message>
   <source>From empty the device never starts, so nothing is served; {asked} % is asked for.</source>
   <translation>Mit leerem Speicher startet das Gerät nie, also wird nichts ausgeführt; verlangt sind {asked} %.</translation>
  </message>
  <message>
   <source>“{operation}” is completed in {share} % of the cases wanted; {asked} % is required.</source>
   <translation>„{operation}“ wird in {share} % der gewünschten Fälle ausgeführt; verlangt sind {asked} %.</translation>
  </message>
  <message>
   <source>Once it has settled, the device is connected {share} % of the time; {asked} % is asked for.</source>
   <translation>Eingeschwungen ist das Gerät {share} % der Zeit eingeschaltet; verlangt sind {asked} %.</translation>
  </message>
  <message>
   <source>The device is connected {share} % of the time, with {n} cut-offs per week; {asked} % is asked for, and without any cut-off.</source>
   <translation>Das Gerät ist {share} % der Zeit eingeschaltet, mit {n} Abschaltungen je Woche; verlangt sind {asked} %, ohne jede Abschaltung.</translation>
  </message>
  <message>
   <source>The device has no operations; it stays connected all the time.</source>
   <translation>Das Gerät hat keine Vorgänge; es bleibt ständig eingeschaltet.</translation>
  </message>
  <message>
   <source>From empty, the device is ready {time} after the light comes on; {allowed} is allowed.</source>
   <translation>Mit leerem Speicher ist das Gerät {time} nach dem ersten Licht betriebsbereit; erlaubt: {allowed}.</translation>
  </message>
  <message>
   <source>the closure lasts {time}</source>
   <translation>die Schließzeit dauert {time}</translation>
  </message>
  <message>
   <source>the dark stretch lasts {time}</source>
   <translation>die Dunkelphase dauert {time}</translation>
  </message>
  <message>
   <source>Output of panels on sale</source>
   <translation>Ertrag käuflicher Module</translation>
  </message>
  <message>
   <source>{label}, measured</source>
   <translation>{label}, gemessen</translation>
  </message>
  <message>
   <source>{label} of “{operation}”</source>
   <translation>{label} von „{operation}“</translation>
  </message>
  <message>
   <source>Runs</source>
   <translation>Läuft</translation>
  </message>
  <message>
   <source>Marginal</source>
   <translation>Knapp</translation>
  </message>
  <message>
   <source>Falls short</source>
   <translation>Reicht nicht</translation>
  </message>
  <message>
   <source>Starts</source>
   <comment>check</comment>
   <translation>Start</translation>
  </message>
  <message>
   <source>Balance</source>
   <comment>check</comment>
   <translation>Bilanz</translation>
  </message>
  <message>
   <source>Dark</source>
   <comment>check</comment>
   <translation>Dunkelheit</translation>
  </message>
  <message>
   <source>Pulse</source>
   <comment>check</comment>
   <translation>Puls</translation>
  </message>
  <message>
   <source>Ratings</source>
   <comment>check</comment>
   <translation>Grenzwerte</translation>
  </message>
  <message>
   <source>Service</source>
   <comment>check</comment>
   <translation>Ausführung</translation>
  </message>
  <message>
   <source>starts</source>
   <comment>check</comment>
   <translation>Start</translation>
  </message>
  <message>
   <source>balance</source>
   <comment>check</comment>
   <translation>Bilanz</translation>
  </message>
  <message>
   <source>dark</source>
   <comment>check</comment>
   <translation>Dunkelheit</translation>
  </message>
  <message>
   <source>pulse</source>
   <comment>check</comment>
   <translation>Puls</translation>
  </message>
  <message>
   <source>ratings</source>
   <comment>check</comment>
   <translation>Grenzwerte</translation>
  </message>
  <message>
   <source>service</source>
   <comment>check</comment>
   <translation>Ausführung</translation>
  </message>
  <message>
   <source>From {first} to {last}</source>
   <translation>Von {first} bis {last}</translation>
  </message>
  <message>
   <source>In {month}</source>
   <translation>Im {month}</translation>
  </message>
  <message>
   <source>In {month}: {sentence}</source>
   <translation>Im {month}: {sentence}</translation>
  </message>
  <message>
   <source>Hung up empty on {date}, the store only reaches {volts} within a year; it connects at {connect}.</source>
   <translation>Am {date} leer aufgehängt erreicht der Speicher binnen eines Jahres nur {volts}; eingeschaltet wird bei {connect}.</translation>
  </message>
  <message>
   <source>{months}, the tightest of the year, the light brings {got} on average and a full store gives {gives}; together that does not cover the {need} that device, leakage and charger take.</source>
   <translation>{months}, der knappsten Zeit des Jahres, bringt das Licht im Mittel {got}, und ein voller Speicher gibt {gives}; zusammen deckt das nicht die {need}, die Gerät, Leckstrom und Laderegler nehmen.</translation>
  </message>
  <message>
   <source>Hung up empty on {date}, the device is ready {time} after the first light; {allowed} is allowed.</source>
   <translation>Am {date} leer aufgehängt ist das Gerät {time} nach dem ersten Licht bereit; erlaubt sind {allowed}.</translation>
  </message>
  <message>
   <source>Hung up empty on {date}, it does not get past its start-up within a year: each try empties the store before the device is up.</source>
   <translation>Am {date} leer aufgehängt kommt es binnen eines Jahres nicht über den Anlauf hinaus: Jeder Versuch leert den Speicher, bevor das Gerät läuft.</translation>
  </message>
  <message>
   <source>Over the year the light brings {got} on average, which does not cover the {need} that device, leakage and charger take.</source>
   <translation>Über das Jahr bringt das Licht im Mittel {got}; das deckt nicht die {need}, die Gerät, Leckstrom und Laderegler nehmen.</translation>
  </message>
  <message>
   <source>{months}, the tightest of the year, the light brings {got} on average and a full store gives {gives}; together that covers the {need} that device, leakage and charger take.</source>
   <translation>{months}, der knappsten Zeit des Jahres, bringt das Licht im Mittel {got}, und ein voller Speicher gibt {gives}; zusammen deckt das die {need}, die Gerät, Leckstrom und Laderegler nehmen.</translation>
  </message>
  <message>
   <source>The device is off before every dark stretch; it lasts for none.</source>
   <translation>Das Gerät ist vor jeder Dunkelzeit aus; es hält keine durch.</translation>
  </message>
  <message>
   <source>Hung up empty the device does not start within a year, so nothing is served; {asked} % is asked for.</source>
   <translation>Leer aufgehängt läuft das Gerät binnen eines Jahres nicht an, also wird nichts ausgeführt; verlangt sind {asked} %.</translation>
  </message>
  <message>
   <source>Over the year the light brings {got} on average, which covers the {need} that device, leakage and charger take.</source>
   <translation>Über das Jahr bringt das Licht im Mittel {got}; das deckt die {need}, die Gerät, Leckstrom und Laderegler nehmen.</translation>
  </message>
  <message>
   <source>The device stays connected all year and completes every run that is wanted.</source>
   <translation>Das Gerät bleibt das ganze Jahr eingeschaltet und führt alle gewünschten Vorgänge aus.</translation>
  </message>
  <message>
   <source>The device stays connected all year.</source>
   <translation>Das Gerät bleibt das ganze Jahr eingeschaltet.</translation>
  </message>
  <message>
   <source>It fares worst in {month}, with {share} % served; over the year it is off for {days}. {asked} % is asked for.</source>
   <translation>Am schlechtesten steht es im {month} mit {share} % ausgeführt; über das Jahr ist es {days} aus. Verlangt sind {asked} %.</translation>
  </message>
  <message>
   <source>The years do not come alike within {n}; the last one stands for them.</source>
   <translation>Die Jahre gleichen sich binnen {n} nicht an; das letzte steht für sie.</translation>
  </message>
  <message>
   <source>(not installed)</source>
   <translation>(nicht installiert)</translation>
  </message>
  <message>
   <source>{kind} of {design}, measured</source>
   <translation>{kind} von {design}, gemessen</translation>
  </message>
  <message>
   <source>{file} holds no logged run; name the table of one behind it.</source>
   <translation>{file} enthält keine Aufzeichnung; nennen Sie die Tabelle einer solchen dahinter.</translation>
  </message>
  <message>
   <source>--part {text}: give a kind and a file, such as store=store.json; kinds are {kinds}.</source>
   <translation>--part {text}: Art und Datei angeben, etwa store=store.json; Arten sind {kinds}.</translation>
  </message>
  <message>
   <source>--{option} needs values to fit; add --fit store.capacitance_F, for instance.</source>
   <translation>--{option} braucht Werte zum Anpassen; etwa --fit store.capacitance_F hinzufügen.</translation>
  </message>
  <message>
   <source>Written: {path}</source>
   <translation>Geschrieben: {path}</translation>
  </message>
  <message>
   <source>Later:</source>
   <translation>Später:</translation>
  </message>
  <message>
   <source>--{name} {text}: say which log, from 1 to {count}, such as --{name} 1={example}.</source>
   <translation>--{name} {text}: sagen, welcher Messlauf, 1 bis {count}, etwa --{name} 1={example}.</translation>
  </message>
  <message>
   <source>“{found}” is out of range; allowed is above 0 and up to {most}.</source>
   <translation>„{found}“ liegt außerhalb; erlaubt ist über 0 bis {most}.</translation>
  </message>
  <message>
   <source>± {share} is out of range; from 0 to 100 %.</source>
   <translation>± {share} liegt außerhalb; von 0 bis 100 %.</translation>
  </message>
  <message>
   <source>“{found}” is neither yes nor no.</source>
   <translation>„{found}“ ist weder ja noch nein.</translation>
  </message>
  <message>
   <source>“{found}” is no moment of a week; it is a weekday and a time, such as mon 09:00.</source>
   <translation>„{found}“ ist kein Zeitpunkt einer Woche; gemeint sind Wochentag und Uhrzeit, etwa mon 09:00.</translation>
  </message>
  <message>
   <source>{why} Allowed are design, dark, or a level such as 500 lx ± 5 %.</source>
   <translation>{why} Erlaubt sind design, dark oder ein Wert wie 500 lx ± 5 %.</translation>
  </message>
  <message>
   <source>{why} Allowed are design, asleep, off, or a steady current such as 20 mA ± 0.5 %.</source>
   <translation>{why} Erlaubt sind design, asleep, off oder ein gleichmäßiger Strom wie 20 mA ± 0.5 %.</translation>
  </message>
  <message>
   <source>--{name} {text}: {why}</source>
   <translation>--{name} {text}: {why}</translation>
  </message>
  <message>
   <source>{folder} is no study: it holds no study.json. Begin one with --from SCENARIO.</source>
   <translation>{folder} ist keine Studie: study.json fehlt darin. Beginnen Sie eine mit --from SZENARIO.</translation>
  </message>
  <message>
   <source>{n} designs can be compared; take one out first.</source>
   <translation>{n} Entwürfe lassen sich vergleichen; zuerst einen herausnehmen.</translation>
  </message>
  <message>
   <source>Search for a build: {limits}.</source>
   <translation>Suche nach einem Aufbau: {limits}.</translation>
  </message>
  <message>
   <source>Its front has {n} builds.</source>
   <translation>{n} davon schlägt kein anderer.</translation>
  </message>
  <message>
   <source>log of a run</source>
   <translation>Messlauf</translation>
  </message>
  <message>
   <source>{file} holds {n} readings; at least 3 are needed.</source>
   <translation>{file} enthält {n} Messwerte; mindestens 3 sind nötig.</translation>
  </message>
  <message>
   <source>{n} readings of the light were joined to {kept} means.</source>
   <translation>{n} Messwerte des Lichts wurden zu {kept} Mittelwerten zusammengefasst.</translation>
  </message>
  <message>
   <source>{n} readings were joined to {kept} means; their extremes are kept.</source>
   <translation>{n} Messwerte wurden zu {kept} Mittelwerten zusammengefasst; ihre Extreme bleiben erhalten.</translation>
  </message>
  <message>
   <source>The measurement has a gap of {time} after {since}; nothing is compared there.</source>
   <translation>Die Messung hat nach {since} eine Lücke von {time}; dort wird nichts verglichen.</translation>
  </message>
  <message>
   <source>The log pauses {n} times, together {time}, first after {since}; nothing is compared there.</source>
   <translation>Der Messlauf pausiert {n}-mal, zusammen {time}, zuerst nach {since}; dort wird nichts verglichen.</translation>
  </message>
  <message>
   <source>capture of a current</source>
   <translation>Stromaufzeichnung</translation>
  </message>
  <message>
   <source>{file} holds {n} readings; a capture has at least 2.</source>
   <translation>{file} enthält {n} Messwerte; eine Aufzeichnung hat mindestens 2.</translation>
  </message>
  <message>
   <source>{file} holds {n} readings; at most {most} are taken. Cut one cycle out of it, or let the instrument average.</source>
   <translation>{file} enthält {n} Messwerte; höchstens {most} werden angenommen. Einen Zyklus herausschneiden oder das Messgerät mitteln lassen.</translation>
  </message>
  <message>
   <source>a number</source>
   <translation>eine Zahl</translation>
  </message>
  <message>
   <source>a whole number</source>
   <translation>eine ganze Zahl</translation>
  </message>
  <message>
   <source>a text in quotes</source>
   <translation>ein Text in Anführungszeichen</translation>
  </message>
  <message>
   <source>true or false</source>
   <translation>true oder false</translation>
  </message>
  <message>
   <source>a list in brackets</source>
   <translation>eine Liste in eckigen Klammern</translation>
  </message>
  <message>
   <source>a section in braces</source>
   <translation>ein Abschnitt in geschweiften Klammern</translation>
  </message>
  <message>
   <source>{key} is {found}; allowed is {low} to {high}.</source>
   <translation>{key} ist {found}; erlaubt ist {low} bis {high}.</translation>
  </message>
  <message>
   <source>{key} is not a known key here; known are {keys}.</source>
   <translation>{key} ist hier kein bekannter Schlüssel; bekannt sind {keys}.</translation>
  </message>
  <message>
   <source>the text cannot be read: {why}.</source>
   <translation>der Text ist nicht lesbar: {why}.</translation>
  </message>
  <message>
   <source>{key} has {found} letters; at most {n} are allowed.</source>
   <translation>{key} hat {found} Zeichen; höchstens {n} sind erlaubt.</translation>
  </message>
  <message>
   <source>{key} must be {kind} from {low} to {high}, found {found}.</source>
   <translation>{key} muss {kind} von {low} bis {high} sein, gefunden: {found}.</translation>
  </message>
  <message>
   <source>{key} is {found}; allowed is {allowed}.</source>
   <translation>{key} ist {found}; erlaubt ist {allowed}.</translation>
  </message>
  <message>
   <source> or </source>
   <translation> oder </translation>
  </message>
  <message>
   <source>{key} is missing; allowed is {allowed}.</source>
   <translation>{key} fehlt; erlaubt ist {allowed}.</translation>
  </message>
  <message>
   <source>{key} is not a known key here; did you mean {nearest}?</source>
   <translation>{key} ist hier kein bekannter Schlüssel; gemeint vielleicht {nearest}?</translation>
  </message>
  <message>
   <source>{key} may hold at most {n}.</source>
   <translation>{key} darf höchstens {n} enthalten.</translation>
  </message>
  <message>
   <source>{key} must be {kind}, found {found}.</source>
   <translation>{key} muss {kind} sein, gefunden: {found}.</translation>
  </message>
  <message>
   <source>Did you mean "{word}"?</source>
   <translation>Gemeint vielleicht „{word}“?</translation>
  </message>
  <message>
   <source>{place} cannot be made: {why}.</source>
   <translation>{place} lässt sich nicht anlegen: {why}.</translation>
  </message>
  <message>
   <source>{place} cannot be removed: {why}.</source>
   <translation>{place} lässt sich nicht entfernen: {why}.</translation>
  </message>
  <message>
   <source>Permission denied</source>
   <translation>Zugriff verweigert</translation>
  </message>
  <message>
   <source>Operation not permitted</source>
   <translation>Vorgang nicht erlaubt</translation>
  </message>
  <message>
   <source>No such file or directory</source>
   <translation>Datei oder Ordner nicht gefunden</translation>
  </message>
  <message>
   <source>Not a directory</source>
   <translation>kein Ordner</translation>
  </message>
  <message>
   <source>File name too long</source>
   <translation>Dateiname zu lang</translation>
  </message>
  <message>
   <source>No space left on device</source>
   <translation>kein Platz mehr auf dem Datenträger</translation>
  </message>
  <message>
   <source>Disk quota exceeded</source>
   <translation>Speicherkontingent erschöpft</translation>
  </message>
  <message>
   <source>Read-only file system</source>
   <translation>Dateisystem ist schreibgeschützt</translation>
  </message>
  <message>
   <source>Input/output error</source>
   <translation>Ein-/Ausgabefehler</translation>
  </message>
  <message>
   <source>Too many levels of symbolic links</source>
   <translation>zu viele verkettete Verknüpfungen</translation>
  </message>
  <message>
   <source>{path} cannot be read: {why}.</source>
   <translation>{path} kann nicht gelesen werden: {why}.</translation>
  </message>
  <message>
   <source>{path} grew past {limit} MB while it was read.</source>
   <translation>{path} ist beim Lesen über {limit} MB gewachsen.</translation>
  </message>
  <message>
   <source>{path} is not a text file in UTF-8, so it cannot be a {what}.</source>
   <translation>{path} ist keine Textdatei in UTF-8 und damit nicht lesbar (erwartet: {what}).</translation>
  </message>
  <message>
   <source>{path} is empty; a {what} was expected.</source>
   <translation>{path} ist leer (erwartet: {what}).</translation>
  </message>
  <message>
   <source>{path} is a folder; a {what} is a file.</source>
   <translation>{path} ist ein Ordner und keine Datei (erwartet: {what}).</translation>
  </message>
  <message>
   <source>{path} is not an ordinary file; a {what} is.</source>
   <translation>{path} ist keine gewöhnliche Datei (erwartet: {what}).</translation>
  </message>
  <message>
   <source>{path} holds {size} MB; a {what} may hold at most {limit} MB.</source>
   <translation>{path} hat {size} MB; erlaubt sind höchstens {limit} MB ({what}).</translation>
  </message>
  <message>
   <source>There is no file {path}.</source>
   <translation>Die Datei {path} gibt es nicht.</translation>
  </message>
  <message>
   <source>{path} is a folder; give the name of a file.</source>
   <translation>{path} ist ein Ordner; den Namen einer Datei angeben.</translation>
  </message>
  <message>
   <source>{path} cannot be written: there is no folder {folder}.</source>
   <translation>{path} kann nicht geschrieben werden: Den Ordner {folder} gibt es nicht.</translation>
  </message>
  <message>
   <source>{name} cannot be the name of a file.</source>
   <translation>{name} kann kein Dateiname sein.</translation>
  </message>
  <message>
   <source>{path} cannot be written: {why}.</source>
   <translation>{path} kann nicht geschrieben werden: {why}.</translation>
  </message>
  <message>
   <source>{path} cannot be deleted: {why}.</source>
   <translation>{path} lässt sich nicht löschen: {why}.</translation>
  </message>
  <message>
   <source>“{found}” is out of range; allowed is {low} to {high}.</source>
   <translation>„{found}“ liegt außerhalb des Bereichs; erlaubt ist {low} bis {high}.</translation>
  </message>
  <message>
   <source>The time “{found}” does not lie after the time of the row above; rows stand in the order in which they were read.</source>
   <translation>Die Zeit „{found}“ liegt nicht nach der Zeit der Zeile darüber; die Zeilen stehen in der Reihenfolge, in der abgelesen wurde.</translation>
  </message>
  <message>
   <source>{path} does not hold readings by hand.</source>
   <translation>{path} enthält keine von Hand notierten Messwerte.</translation>
  </message>
  <message>
   <source>“{found}” is no time; allowed is a time of day such as 14:05:30, a date such as 2026-03-02 14:05, or the time since the beginning, such as 90 s or 5 min.</source>
   <translation>„{found}“ ist keine Zeit; erlaubt ist eine Uhrzeit wie 14:05:30, ein Datum wie 2026-03-02 14:05 oder die Zeit seit Beginn wie 90 s oder 5 min.</translation>
  </message>
  <message>
   <source>“{found}” is a time of day, but the first row counts the time since the beginning; use one kind.</source>
   <translation>„{found}“ ist eine Uhrzeit, die erste Zeile zählt aber ab Beginn; nur eine Art verwenden.</translation>
  </message>
  <message>
   <source>“{found}” is no time of day.</source>
   <translation>„{found}“ ist keine Uhrzeit.</translation>
  </message>
  <message>
   <source>“{found}” is a date, but the first row counts the time since the beginning; use one kind.</source>
   <translation>„{found}“ ist ein Datum, die erste Zeile zählt aber ab Beginn; nur eine Art verwenden.</translation>
  </message>
  <message>
   <source>{n} short gaps of up to {most}, together {total}, hold the reading before them.</source>
   <translation>Kurze Lücken bis {most}, die den Messwert davor behalten: {n}, zusammen {total}.</translation>
  </message>
  <message>
   <source>{offset} were taken off every reading.</source>
   <translation>Von jedem Messwert wurden {offset} abgezogen.</translation>
  </message>
  <message>
   <source>The step is uneven, about {step}; each reading holds until the next.</source>
   <translation>Der Abstand ist ungleichmäßig, etwa {step}; jeder Messwert gilt bis zum nächsten.</translation>
  </message>
  <message>
   <source>The light never falls below {floor}: it is lit around the clock, or the meter reads so much in the dark.</source>
   <translation>Das Licht fällt nie unter {floor}: Es brennt rund um die Uhr, oder das Messgerät zeigt so viel im Dunkeln an.</translation>
  </message>
  <message>
   <source>{n} more gaps; all together {time} without a reading.</source>
   <translation>Weitere Lücken: {n}; insgesamt {time} ohne Messwert.</translation>
  </message>
  <message>
   <source>Times jittering by up to {wander} were placed on even steps of {step}.</source>
   <translation>Zeiten, die um bis zu {wander} schwanken, wurden auf gleiche Schritte von {step} gelegt.</translation>
  </message>
  <message>
   <source>No reading for {time} after {since}; these count as dark.</source>
   <translation>Kein Messwert für {time} nach {since}; diese Zeit gilt als dunkel.</translation>
  </message>
  <message>
   <source>No reading for {time} after {since}; these hold the last reading.</source>
   <translation>Kein Messwert für {time} nach {since}; es gilt der letzte Messwert.</translation>
  </message>
  <message>
   <source>Expecting value</source>
   <translation>Wert erwartet</translation>
  </message>
  <message>
   <source>Expecting property name enclosed in double quotes</source>
   <translation>Schlüssel in doppelten Anführungszeichen erwartet</translation>
  </message>
  <message>
   <source>Expecting ':' delimiter</source>
   <translation>„:“ erwartet</translation>
  </message>
  <message>
   <source>Expecting ',' delimiter</source>
   <translation>„,“ erwartet</translation>
  </message>
  <message>
   <source>Extra data</source>
   <translation>überzählige Daten</translation>
  </message>
  <message>
   <source>Illegal trailing comma before end of object</source>
   <translation>unerlaubtes Komma vor dem Ende des Abschnitts</translation>
  </message>
  <message>
   <source>Illegal trailing comma before end of array</source>
   <translation>unerlaubtes Komma vor dem Ende der Liste</translation>
  </message>
  <message>
   <source>Invalid control character at</source>
   <translation>ungültiges Steuerzeichen</translation>
  </message>
  <message>
   <source>Invalid \escape</source>
   <translation>ungültige Zeichenfolge nach \</translation>
  </message>
  <message>
   <source>Invalid \uXXXX escape</source>
   <translation>ungültige Zeichenfolge nach \u</translation>
  </message>
  <message>
   <source>{key} is given more than once; keep one.</source>
   <translation>{key} ist mehrfach angegeben; nur eine Angabe behalten.</translation>
  </message>
  <message>
   <source>{key} is {found}; only finite numbers are allowed.</source>
   <translation>{key} ist {found}; erlaubt sind nur endliche Zahlen.</translation>
  </message>
  <message>
   <source>{key} holds {found} entries; at most {n} are allowed.</source>
   <translation>{key} hat {found} Einträge; höchstens {n} sind erlaubt.</translation>
  </message>
  <message>
   <source>nothing</source>
   <comment>found</comment>
   <translation>nichts</translation>
  </message>
  <message>
   <source>{file}: {n} more of this kind.</source>
   <translation>{file}: {n} weitere dieser Art.</translation>
  </message>
  <message>
   <source>{file} is not JSON: {why} at line {line}, column {column}.</source>
   <translation>{file} ist kein JSON: {why} in Zeile {line}, Spalte {column}.</translation>
  </message>
  <message>
   <source>{file} is nested too deeply to be read.</source>
   <translation>{file} ist zu tief verschachtelt, um gelesen zu werden.</translation>
  </message>
  <message>
   <source>{file} holds a number with thousands of digits.</source>
   <translation>{file} enthält eine Zahl mit Tausenden von Ziffern.</translation>
  </message>
  <message>
   <source>{file} ends too early, at line {line}, column {column}; part of the file is missing.</source>
   <translation>{file} endet zu früh, in Zeile {line}, Spalte {column}; ein Teil der Datei fehlt.</translation>
  </message>
  <message>
   <source>LGPL-3.0-only, with Qt under the same licence</source>
   <translation>LGPL-3.0-only, Qt unter derselben Lizenz</translation>
  </message>
  <message>
   <source>light log</source>
   <translation>Lichtprotokoll</translation>
  </message>
  <message>
   <source>light.pattern.file is {file}, and there is no such log beside the scenario or among the shipped ones ({names}).</source>
   <translation>light.pattern.file ist {file}; ein solches Lichtprotokoll gibt es weder neben dem Szenario noch unter den mitgelieferten ({names}).</translation>
  </message>
  <message>
   <source>{file} holds {n} readings; at least 2 are needed.</source>
   <translation>Messwerte in {file}: {n}; nötig sind mindestens 2.</translation>
  </message>
  <message>
   <source>light.pattern.file names no log; give the name of a CSV file.</source>
   <translation>light.pattern.file nennt kein Lichtprotokoll; den Namen einer CSV-Datei angeben.</translation>
  </message>
  <message>
   <source>light.pattern.file is {file}, and there is no such log among the shipped ones ({names}).</source>
   <translation>light.pattern.file ist {file}; ein solches Lichtprotokoll gibt es unter den mitgelieferten nicht ({names}).</translation>
  </message>
  <message>
   <source>light.pattern.{key} = </source>
   <translation>light.pattern.{key} = </translation>
  </message>
  <message>
   <source>table of readings</source>
   <translation>Tabelle von Messwerten</translation>
  </message>
  <message>
   <source>{file}: {n} readings from {start} over {span}, one about every {step}.</source>
   <translation>{file}: {n} Messwerte ab {start} über {span}, etwa alle {step} einer.</translation>
  </message>
  <message>
   <source>Column {n}, “{heading}”: {quantity} in {unit}.</source>
   <translation>Spalte {n}, „{heading}“: {quantity} in {unit}.</translation>
  </message>
  <message>
   <source>{file}: the first {n} readings.</source>
   <translation>{file}: die ersten {n} Messwerte.</translation>
  </message>
  <message>
   <source>{file}: 1 reading.</source>
   <translation>{file}: 1 Messwert.</translation>
  </message>
  <message>
   <source>{file}: {n} readings over {span}, one about every {step}.</source>
   <translation>{file}: {n} Messwerte über {span}, etwa alle {step} einer.</translation>
  </message>
  <message>
   <source>Column {n}, “{heading}”: {quantity}.</source>
   <translation>Spalte {n}, „{heading}“: {quantity}.</translation>
  </message>
  <message>
   <source>{file} holds names and no readings.</source>
   <translation>{file} enthält Spaltennamen, aber keine Messwerte.</translation>
  </message>
  <message>
   <source>Line</source>
   <translation>Zeile</translation>
  </message>
  <message>
   <source>Time</source>
   <translation>Zeit</translation>
  </message>
  <message>
   <source>curve of a panel</source>
   <translation>Kennlinie eines Moduls</translation>
  </message>
  <message>
   <source>{file}: the light changes from {low} to {high} lx along the curve; keep the rows of one light.</source>
   <translation>{file}: Das Licht ändert sich entlang der Kennlinie von {low} auf {high} lx; nur die Zeilen eines Lichts behalten.</translation>
  </message>
  <message>
   <source>{file}: {fault}.</source>
   <translation>{file}: {fault}.</translation>
  </message>
  <message>
   <source>{file} is not a part: the key format must be "{format}", found {found}.</source>
   <translation>{file} ist kein Bauteil: Der Schlüssel format muss "{format}" sein, gefunden: {found}.</translation>
  </message>
  <message>
   <source>{file}: version must be a whole number from 1 to {newest}, found {found}.</source>
   <translation>{file}: version muss eine ganze Zahl von 1 bis {newest} sein, gefunden: {found}.</translation>
  </message>
  <message>
   <source>{file} is a part of version {version}, and this program reads versions up to {newest}. A newer program wrote it; update this one to open it.</source>
   <translation>{file} ist ein Bauteil der Version {version}; dieses Programm liest Versionen bis {newest}. Ein neueres Programm hat es geschrieben; dieses aktualisieren, um es zu öffnen.</translation>
  </message>
  <message>
   <source>{file}: kind is {found}; allowed is {allowed}.</source>
   <translation>{file}: kind ist {found}; erlaubt ist {allowed}.</translation>
  </message>
  <message>
   <source>part</source>
   <translation>Bauteil</translation>
  </message>
  <message>
   <source>A planning estimate: local codes, the parts' data sheets and a qualified person decide.</source>
   <translation>Eine Planungshilfe: Es entscheiden örtliche Vorschriften, die Datenblätter und eine Fachkraft.</translation>
  </message>
  <message>
   <source>The light log</source>
   <translation>Das Lichtprotokoll</translation>
  </message>
  <message>
   <source>The light of the year</source>
   <translation>Das Licht des Jahres</translation>
  </message>
  <message>
   <source>Figure {n}.</source>
   <translation>Bild {n}.</translation>
  </message>
  <message>
   <source>Six checks</source>
   <translation>Sechs Prüfungen</translation>
  </message>
  <message>
   <source>Where the verdict changes</source>
   <translation>Wo das Urteil wechselt</translation>
  </message>
  <message>
   <source>Answers</source>
   <translation>Antworten</translation>
  </message>
  <message>
   <source>Panel in this light</source>
   <translation>Solarmodul in diesem Licht</translation>
  </message>
  <message>
   <source>Where the energy goes</source>
   <translation>Wohin die Energie geht</translation>
  </message>
  <message>
   <source>How the light is known</source>
   <translation>Woher das Licht bekannt ist</translation>
  </message>
  <message>
   <source>Inputs</source>
   <translation>Eingaben</translation>
  </message>
  <message>
   <source>What the model leaves out, and how wrong it may be</source>
   <translation>Was das Modell weglässt und wie falsch es sein kann</translation>
  </message>
  <message>
   <source>From the model note that comes with the program; the numbers are its sections, which give the equations and the sources.</source>
   <translation>Aus der Modellbeschreibung, die dem Programm beiliegt; die Nummern sind deren Abschnitte mit Gleichungen und Quellen.</translation>
  </message>
  <message>
   <source>Where this report comes from</source>
   <translation>Herkunft dieses Berichts</translation>
  </message>
  <message>
   <source>The same scenario gives the same SHA-256: of its JSON with every key, keys sorted, no blanks between them, in UTF-8.</source>
   <translation>Das gleiche Szenario ergibt die gleiche SHA-256: von seinem JSON mit allen Schlüsseln, sortiert, ohne Leerzeichen dazwischen, in UTF-8.</translation>
  </message>
  <message>
   <source>The deepest pulse</source>
   <translation>Der tiefste Puls</translation>
  </message>
  <message>
   <source>Store voltage</source>
   <translation>Speicherspannung</translation>
  </message>
  <message>
   <source>What the converter passes on, over its input power: rows of its table, the curve through them, and A in the present light with the store at its connect level.</source>
   <translation>Was der Wandler weitergibt, über seiner Eingangsleistung: Zeilen seiner Tabelle, die Kurve hindurch und A im jetzigen Licht, der Speicher auf Einschaltspannung.</translation>
  </message>
  <message>
   <source>Efficiency table as entered</source>
   <translation>Wirkungsgradtabelle wie eingegeben</translation>
  </message>
  <message>
   <source>Charger by its efficiency table</source>
   <translation>Laderegler nach seiner Wirkungsgradtabelle</translation>
  </message>
  <message>
   <source>In the present light: {what}</source>
   <translation>Im jetzigen Licht: {what}</translation>
  </message>
  <message>
   <source>efficiency, %</source>
   <translation>Wirkungsgrad, %</translation>
  </message>
  <message>
   <source>input power</source>
   <translation>Eingangsleistung</translation>
  </message>
  <message>
   <source>any</source>
   <translation>beliebig</translation>
  </message>
  <message>
   <source>first period</source>
   <translation>erste Periode</translation>
  </message>
  <message>
   <source>Store voltage over {time}: between {low} and {high}, lowest at the terminals {lowest}.</source>
   <translation>Speicherspannung über {time}: zwischen {low} und {high}, niedrigste an den Klemmen {lowest}.</translation>
  </message>
  <message>
   <source>{title}: {step} across the series resistance, {ramp} by discharge; lowest {lowest}, the device needs {minimum}.</source>
   <translation>{title}: {step} am Serienwiderstand, {ramp} durch Entladung; niedrigste Spannung {lowest}, das Gerät braucht {minimum}.</translation>
  </message>
  <message>
   <source>Current and power of the whole array at {light} at the place. {note}</source>
   <translation>Strom und Leistung aller Solarmodule bei {light} am Ort. {note}</translation>
  </message>
  <message>
   <source>The run from the scenario's own beginning.</source>
   <translation>Der Verlauf vom Anfang des Szenarios an.</translation>
  </message>
  <message>
   <source>Solid: the course that repeats, which the checks judge. Dotted: the first period from the scenario's own beginning.</source>
   <translation>Durchgezogen: der wiederkehrende Verlauf, den die Prüfungen beurteilen. Gepunktet: die erste Periode vom Anfang des Szenarios an.</translation>
  </message>
  <message>
   <source>time</source>
   <translation>Zeit</translation>
  </message>
  <message>
   <source>light at the place</source>
   <translation>Licht am Ort</translation>
  </message>
  <message>
   <source>dark</source>
   <translation>dunkel</translation>
  </message>
  <message>
   <source>needs</source>
   <translation>braucht</translation>
  </message>
  <message>
   <source>Points on the curves</source>
   <translation>Punkte auf den Kurven</translation>
  </message>
  <message>
   <source>store</source>
   <translation>Speicher</translation>
  </message>
  <message>
   <source>store, repeating</source>
   <translation>Speicher, wiederkehrend</translation>
  </message>
  <message>
   <source>voltage, V</source>
   <translation>Spannung, V</translation>
  </message>
  <message>
   <source>panel voltage, V</source>
   <translation>Modulspannung, V</translation>
  </message>
  <message>
   <source>current, {unit}</source>
   <translation>Strom, {unit}</translation>
  </message>
  <message>
   <source>power, {unit}</source>
   <translation>Leistung, {unit}</translation>
  </message>
  <message>
   <source>time from the beginning of the operation</source>
   <translation>Zeit ab Beginn des Vorgangs</translation>
  </message>
  <message>
   <source>terminals</source>
   <translation>Klemmen</translation>
  </message>
  <message>
   <source>current</source>
   <translation>Strom</translation>
  </message>
  <message>
   <source>power</source>
   <translation>Leistung</translation>
  </message>
  <message>
   <source>Point</source>
   <translation>Punkt</translation>
  </message>
  <message>
   <source>Voltage</source>
   <comment>column</comment>
   <translation>Spannung</translation>
  </message>
  <message>
   <source>Current</source>
   <comment>column</comment>
   <translation>Strom</translation>
  </message>
  <message>
   <source>Power</source>
   <comment>column</comment>
   <translation>Leistung</translation>
  </message>
  <message>
   <source>pulse envelope</source>
   <translation>Hüllkurve der Pulse</translation>
  </message>
  <message>
   <source>ESR step</source>
   <translation>ESR-Sprung</translation>
  </message>
  <message>
   <source>ramp</source>
   <translation>Rampe</translation>
  </message>
  <message>
   <source>Can it live on this light? Scenario {hash}</source>
   <translation>Kann es von diesem Licht leben? Szenario {hash}</translation>
  </message>
  <message>
   <source>left empty</source>
   <translation>leer gelassen</translation>
  </message>
  <message>
   <source>Scenario</source>
   <translation>Szenario</translation>
  </message>
  <message>
   <source>none</source>
   <translation>keine</translation>
  </message>
  <message>
   <source>{label} {n}</source>
   <translation>{label} {n}</translation>
  </message>
  <message>
   <source>left out</source>
   <comment>model note</comment>
   <translation>nicht enthalten</translation>
  </message>
  <message>
   <source>expected error</source>
   <comment>model note</comment>
   <translation>erwarteter Fehler</translation>
  </message>
  <message>
   <source>Store voltage of {n} designs, numbered as in the table.</source>
   <translation>Speicherspannung von {n} Entwürfen, nummeriert wie in der Tabelle.</translation>
  </message>
  <message>
   <source>Comparison of {n} designs</source>
   <translation>Vergleich von {n} Entwürfen</translation>
  </message>
  <message>
   <source>Bold: the designs do not agree. A dash: a part of another kind is there.</source>
   <translation>Fett: Die Entwürfe stimmen nicht überein. Ein Strich: Dort ist ein Bauteil anderer Art.</translation>
  </message>
  <message>
   <source>Inputs that differ, and what comes of them</source>
   <translation>Eingaben, die sich unterscheiden, und was daraus folgt</translation>
  </message>
  <message>
   <source>SHA-256 of each scenario in its canonical form.</source>
   <translation>SHA-256 jedes Szenarios in seiner kanonischen Form.</translation>
  </message>
  <message>
   <source>Design</source>
   <translation>Entwurf</translation>
  </message>
  <message>
   <source>SHA-256</source>
   <translation>SHA-256</translation>
  </message>
  <message>
   <source>Curves of one panel fitted to its data sheet, and the points of the sheet by their number.</source>
   <translation>Kennlinien eines Moduls, an sein Datenblatt angepasst, und die Punkte des Blatts mit ihrer Nummer.</translation>
  </message>
  <message>
   <source>not given</source>
   <translation>nicht angegeben</translation>
  </message>
  <message>
   <source>Points of the data sheet, each with how far the curve lies above or below it</source>
   <translation>Punkte des Datenblatts, jeweils mit dem Abstand der Kennlinie darüber oder darunter</translation>
  </message>
  <message>
   <source>The diode of one panel, as fitted, at 25 °C</source>
   <translation>Die Diode eines Moduls, wie angepasst, bei 25 °C</translation>
  </message>
  <message>
   <source>Panel by its data sheet</source>
   <translation>Modul nach seinem Datenblatt</translation>
  </message>
  <message>
   <source>voltage of one panel, V</source>
   <translation>Spannung eines Moduls, V</translation>
  </message>
  <message>
   <source>Parameter</source>
   <translation>Parameter</translation>
  </message>
  <message>
   <source>Value</source>
   <comment>column</comment>
   <translation>Wert</translation>
  </message>
  <message>
   <source>measured</source>
   <translation>gemessen</translation>
  </message>
  <message>
   <source>{n}: {light}, {lamp}</source>
   <translation>{n}: {light}, {lamp}</translation>
  </message>
  <message>
   <source>Parts of one's own</source>
   <translation>Eigene Bauteile</translation>
  </message>
  <message>
   <source>Parts that were copied into this design, with the source of their values</source>
   <translation>In diesen Entwurf übernommene Bauteile mit der Quelle ihrer Werte</translation>
  </message>
  <message>
   <source>For</source>
   <translation>Für</translation>
  </message>
  <message>
   <source>Part</source>
   <translation>Bauteil</translation>
  </message>
  <message>
   <source>Source</source>
   <translation>Quelle</translation>
  </message>
  <message>
   <source>Values</source>
   <translation>Werte</translation>
  </message>
  <message>
   <source>“Steady cycle”: the period that repeats once start-up effects have died out.</source>
   <translation>„Eingeschwungener Zyklus“: die Periode, die sich wiederholt, sobald Anfangseffekte abgeklungen sind.</translation>
  </message>
  <message>
   <source>Energy over {time} of the steady cycle.</source>
   <translation>Energie über {time} des eingeschwungenen Zyklus.</translation>
  </message>
  <message>
   <source>Hazard: {title}</source>
   <translation>Gefahr: {title}</translation>
  </message>
  <message>
   <source>“Steady cycle”: the period that repeats once start-up effects have died out. This design never starts from empty; these answers hold for one that begins with a full store.</source>
   <translation>„Eingeschwungener Zyklus“: die Periode, die sich wiederholt, sobald Anfangseffekte abgeklungen sind. Dieser Entwurf startet nie aus leerem Speicher; diese Antworten gelten für einen Beginn mit vollem Speicher.</translation>
  </message>
  <message>
   <source>Energy in {month}, the tightest month of the year.</source>
   <translation>Energie im {month}, dem knappsten Monat des Jahres.</translation>
  </message>
  <message>
   <source>Decided by: {check}. Margin {margin}, required {wanted}.</source>
   <translation>Maßgebend: {check}. Faktor {margin}, verlangt {wanted}.</translation>
  </message>
  <message>
   <source>A check passes at a margin of 1×; Runs requires the margin in the column “Required”. Pulse: allowed dip divided by actual dip.</source>
   <translation>Eine Prüfung ist bei Faktor 1 bestanden; „Läuft“ braucht den Faktor in der Spalte „Verlangt“. Puls: erlaubter Einbruch, geteilt durch den auftretenden.</translation>
  </message>
  <message>
   <source>no end</source>
   <translation>kein Ende</translation>
  </message>
  <message>
   <source>Each quantity moved alone along the stops of its knob, all else as it is; found by the exact model. Sizes of a store are those in which it is sold.</source>
   <translation>Jede Größe für sich über die Schritte ihres Schiebers bewegt, alles andere unverändert; mit dem exakten Modell gefunden. Speichergrößen sind solche, die es zu kaufen gibt.</translation>
  </message>
  <message>
   <source>Light on the panel</source>
   <translation>Licht auf dem Solarmodul</translation>
  </message>
  <message>
   <source>A reading can be wrong, so a design is asked for more than it needs. The three margins are our own judgement.</source>
   <translation>Ein Messwert kann falsch sein, deshalb wird mehr verlangt als nötig. Die drei Sicherheitsfaktoren sind eigene Einschätzung.</translation>
  </message>
  <message>
   <source>Limits of the model</source>
   <translation>Grenzen des Modells</translation>
  </message>
  <message>
   <source>Program</source>
   <translation>Programm</translation>
  </message>
  <message>
   <source>Written</source>
   <translation>Geschrieben</translation>
  </message>
  <message>
   <source>Scenario file</source>
   <translation>Szenariodatei</translation>
  </message>
  <message>
   <source>Format of the scenario</source>
   <translation>Format des Szenarios</translation>
  </message>
  <message>
   <source>{name}, version {n}</source>
   <translation>{name}, Version {n}</translation>
  </message>
  <message>
   <source>SHA-256 of the scenario</source>
   <translation>SHA-256 des Szenarios</translation>
  </message>
  <message>
   <source>Provenance</source>
   <translation>Herkunft</translation>
  </message>
  <message>
   <source>To be signed by those responsible</source>
   <translation>Unterschriften der Verantwortlichen</translation>
  </message>
  <message>
   <source>Amounts that are asked; the one that fares worst is part of Service.</source>
   <translation>Verlangte Mengen; die ungünstigste zählt zur Ausführung.</translation>
  </message>
  <message>
   <source>Other places</source>
   <translation>Andere Orte</translation>
  </message>
  <message>
   <source>Given by the store</source>
   <translation>Vom Speicher gegeben</translation>
  </message>
  <message>
   <source>Caution: {title}</source>
   <translation>Vorsicht: {title}</translation>
  </message>
  <message>
   <source>changed</source>
   <translation>geändert</translation>
  </message>
  <message>
   <source>default</source>
   <translation>Vorgabe</translation>
  </message>
  <message>
   <source>never saved</source>
   <translation>nie gespeichert</translation>
  </message>
  <message>
   <source>Light log</source>
   <translation>Lichtprotokoll</translation>
  </message>
  <message>
   <source>SHA-256 of the light log</source>
   <translation>SHA-256 des Lichtprotokolls</translation>
  </message>
  <message>
   <source>Notes of the scenario</source>
   <translation>Notizen des Szenarios</translation>
  </message>
  <message>
   <source>Note on this sheet</source>
   <translation>Notiz zu diesem Blatt</translation>
  </message>
  <message>
   <source>Sum</source>
   <translation>Summe</translation>
  </message>
  <message>
   <source>Shares refer to the light on the panel and to the panel's maximum power. Not accounted for: {rest}.</source>
   <translation>Anteile beziehen sich auf das Licht auf dem Solarmodul und auf dessen maximale Leistung. Nicht zugeordnet: {rest}.</translation>
  </message>
  <message>
   <source>Margin that this design is asked for</source>
   <translation>Von diesem Entwurf verlangter Faktor</translation>
  </message>
  <message>
   <source>Disconnect voltage</source>
   <translation>Abschaltspannung</translation>
  </message>
  <message>
   <source>Bold: differs from what a new scenario, or a new row in it, begins with.</source>
   <translation>Fett: weicht von dem ab, womit ein neues Szenario oder eine neue Zeile darin beginnt.</translation>
  </message>
  <message>
   <source>Check</source>
   <comment>noun</comment>
   <translation>Prüfung</translation>
  </message>
  <message>
   <source>Result</source>
   <translation>Ergebnis</translation>
  </message>
  <message>
   <source>Value</source>
   <translation>Wert</translation>
  </message>
  <message>
   <source>Limit</source>
   <translation>Grenze</translation>
  </message>
  <message>
   <source>Margin</source>
   <translation>Faktor</translation>
  </message>
  <message>
   <source>Required</source>
   <translation>Verlangt</translation>
  </message>
  <message>
   <source>In words</source>
   <translation>In Worten</translation>
  </message>
  <message>
   <source>Answer</source>
   <translation>Antwort</translation>
  </message>
  <message>
   <source>Assumes</source>
   <translation>Setzt voraus</translation>
  </message>
  <message>
   <source>Quantity</source>
   <translation>Größe</translation>
  </message>
  <message>
   <source>Now</source>
   <translation>Jetzt</translation>
  </message>
  <message>
   <source>Verdict</source>
   <translation>Urteil</translation>
  </message>
  <message>
   <source>Goes to</source>
   <translation>Geht an</translation>
  </message>
  <message>
   <source>Energy</source>
   <translation>Energie</translation>
  </message>
  <message>
   <source>Of the light</source>
   <translation>Vom Licht</translation>
  </message>
  <message>
   <source>Of the panel</source>
   <translation>Vom Modul</translation>
  </message>
  <message>
   <source>this scenario</source>
   <translation>dieses Szenario</translation>
  </message>
  <message>
   <source>follows from the light</source>
   <translation>folgt aus dem Licht</translation>
  </message>
  <message>
   <source>set in the scenario</source>
   <translation>im Szenario gesetzt</translation>
  </message>
  <message>
   <source>Light known by</source>
   <translation>Licht bekannt aus</translation>
  </message>
  <message>
   <source>Required margin</source>
   <translation>Sicherheitsfaktor (Soll)</translation>
  </message>
  <message>
   <source>Applies</source>
   <translation>Gilt für</translation>
  </message>
  <message>
   <source>Section of the note</source>
   <translation>Abschnitt</translation>
  </message>
  <message>
   <source>Left out</source>
   <translation>Nicht enthalten</translation>
  </message>
  <message>
   <source>Expected error</source>
   <translation>Erwarteter Fehler</translation>
  </message>
  <message>
   <source>What</source>
   <translation>Was</translation>
  </message>
  <message>
   <source>Step</source>
   <translation>Schritt</translation>
  </message>
  <message>
   <source>Name</source>
   <comment>person</comment>
   <translation>Name</translation>
  </message>
  <message>
   <source>Date</source>
   <translation>Datum</translation>
  </message>
  <message>
   <source>Signature</source>
   <translation>Unterschrift</translation>
  </message>
  <message>
   <source>Asked</source>
   <translation>Verlangt</translation>
  </message>
  <message>
   <source>Prepared</source>
   <translation>Erstellt</translation>
  </message>
  <message>
   <source>Checked</source>
   <translation>Geprüft</translation>
  </message>
  <message>
   <source>Accepted</source>
   <translation>Angenommen</translation>
  </message>
  <message>
   <source>Input</source>
   <translation>Eingabe</translation>
  </message>
  <message>
   <source>Default</source>
   <translation>Vorgabe</translation>
  </message>
  <message>
   <source>Key in the file</source>
   <translation>Schlüssel in der Datei</translation>
  </message>
  <message>
   <source>Store voltage over a year: between {low} and {high}, off on {n} days.</source>
   <translation>Speicherspannung über ein Jahr: zwischen {low} und {high}, an {n} Tagen aus.</translation>
  </message>
  <message>
   <source>Energy of each month: taken in, used and leaked, and thrown away, store full.</source>
   <translation>Energie jedes Monats: geladen, verbraucht und entwichen, und bei vollem Speicher verworfen.</translation>
  </message>
  <message>
   <source>Light at the panel, days across and hours up; the brightest hour has {lux}.</source>
   <translation>Licht am Modul, Tage nach rechts und Stunden nach oben; die hellste Stunde hat {lux}.</translation>
  </message>
  <message>
   <source>Voltage of the store, days across and hours up.</source>
   <translation>Spannung des Speichers, Tage nach rechts und Stunden nach oben.</translation>
  </message>
  <message>
   <source>brighter</source>
   <translation>heller</translation>
  </message>
  <message>
   <source>off</source>
   <translation>aus</translation>
  </message>
  <message>
   <source>fuller</source>
   <translation>voller</translation>
  </message>
  <message>
   <source>Month</source>
   <translation>Monat</translation>
  </message>
  <message>
   <source>°C</source>
   <translation>°C</translation>
  </message>
  <message>
   <source>Served, %</source>
   <translation>Ausgeführt, %</translation>
  </message>
  <message>
   <source>Longest dark</source>
   <translation>Längstes Dunkel</translation>
  </message>
  <message>
   <source>Lowest store</source>
   <translation>Speicher, tiefste</translation>
  </message>
  <message>
   <source>Taken in</source>
   <translation>Geladen</translation>
  </message>
  <message>
   <source>Thrown away</source>
   <translation>Verworfen</translation>
  </message>
  <message>
   <source>Used and leaked</source>
   <translation>Verbraucht und entwichen</translation>
  </message>
  <message>
   <source>Balance</source>
   <translation>Bilanz</translation>
  </message>
  <message>
   <source>Dark</source>
   <translation>Dunkelheit</translation>
  </message>
  <message>
   <source>taken in</source>
   <translation>geladen</translation>
  </message>
  <message>
   <source>used and leaked</source>
   <translation>verbraucht und entwichen</translation>
  </message>
  <message>
   <source>thrown away</source>
   <translation>verworfen</translation>
  </message>
  <message>
   <source>month</source>
   <translation>Monat</translation>
  </message>
  <message>
   <source>Every month by itself, once the years are alike; thrown away is what the charger could have delivered into a full store.</source>
   <translation>Jeder Monat für sich, sobald die Jahre sich gleichen; verworfen ist, was der Laderegler in einen vollen Speicher hätte liefern können.</translation>
  </message>
  <message>
   <source>The year</source>
   <translation>Das Jahr</translation>
  </message>
  <message>
   <source>to {lux}</source>
   <translation>bis {lux}</translation>
  </message>
  <message>
   <source>to {volts}</source>
   <translation>bis {volts}</translation>
  </message>
  <message>
   <source>light by day</source>
   <translation>Licht nach Tagen</translation>
  </message>
  <message>
   <source>lowest to highest of the day</source>
   <translation>Tiefste bis höchste des Tages</translation>
  </message>
  <message>
   <source>middle of the day</source>
   <translation>Mitte des Tages</translation>
  </message>
  <message>
   <source>energy, J</source>
   <translation>Energie, J</translation>
  </message>
  <message>
   <source>hour</source>
   <translation>Stunde</translation>
  </message>
  <message>
   <source>{path} is being written by another program.</source>
   <translation>{path} wird gerade von einem anderen Programm geschrieben.</translation>
  </message>
  <message>
   <source>{path} holds no run of a meter.</source>
   <translation>{path} enthält keinen Messlauf eines Messgeräts.</translation>
  </message>
  <message>
   <source>{path} is there already; name another file, or go on with it.</source>
   <translation>{path} gibt es schon; eine andere Datei nennen oder diese fortsetzen.</translation>
  </message>
  <message>
   <source>The clock shows {now}, but the last reading of {file} is of {last}. Set the clock, or begin a new run.</source>
   <translation>Die Uhr zeigt {now}, der letzte Messwert von {file} ist aber von {last}. Die Uhr stellen oder einen neuen Messlauf beginnen.</translation>
  </message>
  <message>
   <source>{path}: its last line, “{found}”, is no reading of a meter. Take it out, or begin a new run.</source>
   <translation>{path}: Die letzte Zeile, „{found}“, ist kein Messwert. Löschen Sie sie, oder beginnen Sie eine neue Aufzeichnung.</translation>
  </message>
  <message>
   <source>{path} is a scenario of version {version}; saving would turn it into version {newest}. Save under another name, or agree to replace it.</source>
   <translation>{path} ist ein Szenario der Version {version}; Speichern würde daraus Version {newest} machen. Unter anderem Namen speichern oder dem Ersetzen zustimmen.</translation>
  </message>
  <message>
   <source>{file} is not a scenario: the key format must be "{format}", found {found}.</source>
   <translation>{file} ist kein Szenario: Der Schlüssel format muss "{format}" sein, gefunden: {found}.</translation>
  </message>
  <message>
   <source>{file}: version must be a whole number from 0 to {newest}, found {found}.</source>
   <translation>{file}: version muss eine ganze Zahl von 0 bis {newest} sein, gefunden: {found}.</translation>
  </message>
  <message>
   <source>{file} has version {version}, and this program reads versions up to {newest}. A newer program wrote it; update this one to open it.</source>
   <translation>{file} hat Version {version}, und dieses Programm liest Versionen bis {newest}. Ein neueres Programm hat die Datei geschrieben; zum Öffnen dieses aktualisieren.</translation>
  </message>
  <message>
   <source>scenario</source>
   <translation>Szenario</translation>
  </message>
  <message>
   <source>The folder {folder} cannot be made: {why}.</source>
   <translation>Der Ordner {folder} lässt sich nicht anlegen: {why}.</translation>
  </message>
  <message>
   <source>study</source>
   <translation>Studie</translation>
  </message>
  <message>
   <source>{file} is not a study: the key format must be "{format}", found {found}.</source>
   <translation>{file} ist keine Studie: Der Schlüssel format muss "{format}" sein, gefunden: {found}.</translation>
  </message>
  <message>
   <source>{study}: {key} is {file}, and there is no such file in the folder of the study. Put it back, or take the entry out.</source>
   <translation>{study}: {key} ist {file}, und im Ordner der Studie liegt keine solche Datei. Legen Sie sie zurück, oder löschen Sie den Eintrag.</translation>
  </message>
  <message>
   <source>{folder} holds other files or another study; a study needs an empty folder or a new name.</source>
   <translation>{folder} enthält andere Dateien oder eine andere Studie; eine Studie braucht einen leeren Ordner oder einen neuen Namen.</translation>
  </message>
  <message>
   <source>{folder} is a file; a study needs a folder.</source>
   <translation>{folder} ist eine Datei; eine Studie braucht einen Ordner.</translation>
  </message>
  <message>
   <source>{folder} cannot be written: {why}.</source>
   <translation>{folder} kann nicht beschrieben werden: {why}.</translation>
  </message>
  <message>
   <source>{file} would be written over, and the study did not make it: give it another name first.</source>
   <translation>{file} würde überschrieben, stammt aber nicht von der Studie: Bitte zuerst umbenennen.</translation>
  </message>
  <message>
   <source>Untitled</source>
   <translation>Ohne Titel</translation>
  </message>
  <message>
   <source>light</source>
   <translation>Licht</translation>
  </message>
  <message>
   <source>voltage</source>
   <translation>Spannung</translation>
  </message>
  <message>
   <source>temperature</source>
   <translation>Temperatur</translation>
  </message>
  <message>
   <source>date</source>
   <translation>Datum</translation>
  </message>
  <message>
   <source>{n} readings were joined to means of {width}.</source>
   <translation>{n} Messwerte wurden zu Mittelwerten über {width} zusammengefasst.</translation>
  </message>
  <message>
   <source>{file} has no column of {quantity}; its columns are {names}. A heading names the quantity and its unit, such as “{example}”.</source>
   <translation>{file} hat keine Spalte für {quantity}; die Spalten sind {names}. Eine Überschrift nennt Größe und Einheit, etwa „{example}“.</translation>
  </message>
  <message>
   <source>{file} has {n} columns of {quantity}, and it must be told which to take.</source>
   <translation>{file} hat {n} Spalten für {quantity}; welche gilt, muss gesagt werden.</translation>
  </message>
  <message>
   <source>{file} holds only remarks; a {what} was expected.</source>
   <translation>{file} enthält nur Bemerkungen; erwartet: {what}.</translation>
  </message>
  <message>
   <source>{file} begins with numbers; a line of names must stand above them, such as “{example}”.</source>
   <translation>{file} beginnt mit Zahlen; darüber muss eine Zeile mit Namen stehen, etwa „{example}“.</translation>
  </message>
  <message>
   <source>{file}: the column {column} names no unit; write it into its heading, such as “{example}”.</source>
   <translation>{file}: Die Spalte {column} nennt keine Einheit; sie in die Überschrift schreiben, etwa „{example}“.</translation>
  </message>
  <message>
   <source>The column “{column}” names no unit and was passed over; write it as “{example}”.</source>
   <translation>Die Spalte „{column}“ nennt keine Einheit und wurde übergangen; als „{example}“ schreiben.</translation>
  </message>
  <message>
   <source>{file}, line {line}: the column {column} is {one} by its name and {other} by the line of units; make them agree.</source>
   <translation>{file}, Zeile {line}: Die Spalte {column} ist dem Namen nach {one} und der Einheitenzeile nach {other}; beides in Einklang bringen.</translation>
  </message>
  <message>
   <source>column {n}</source>
   <translation>Spalte {n}</translation>
  </message>
  <message>
   <source>{file} has dates such as {date}, and nothing in it tells which of the numbers is the day, the month or the year.</source>
   <translation>{file} hat Daten wie {date}; nichts darin sagt, welche Zahl Tag, Monat oder Jahr ist.</translation>
  </message>
  <message>
   <source>{found} is {date}</source>
   <translation>{found} ist {date}</translation>
  </message>
  <message>
   <source>{file}, line {line}: its time is {time} before the line above; times must increase. Sort the log, or split it where the logger restarted.</source>
   <translation>{file}, Zeile {line}: Die Zeit liegt {time} vor der Zeile darüber; Zeiten müssen zunehmen. Das Protokoll sortieren oder dort teilen, wo der Logger neu gestartet ist.</translation>
  </message>
  <message>
   <source>{file}, line {line}: its time repeats the time of the line before with another reading; times must rise. Sort the log, or split it where the logger began again.</source>
   <translation>{file}, Zeile {line}: Ihre Zeit ist die der Zeile davor, mit anderem Messwert; Zeiten müssen steigen. Das Protokoll sortieren oder dort teilen, wo der Logger neu begann.</translation>
  </message>
  <message>
   <source>Up to {n} readings share one time stamp; they were spread evenly over it.</source>
   <translation>Bis zu {n} Messwerte teilen sich einen Zeitstempel; sie wurden gleichmäßig darauf verteilt.</translation>
  </message>
  <message>
   <source>{n} lines repeat the line before and were left out.</source>
   <translation>Zeilen, die die vorige wiederholen, ausgelassen: {n}.</translation>
  </message>
  <message>
   <source>The times pass midnight {n} times; each begins a day.</source>
   <translation>Die Uhrzeiten gehen {n}-mal über Mitternacht; jedes Mal beginnt ein Tag.</translation>
  </message>
  <message>
   <source>The times are rounded so that some are equal; the readings were spread evenly.</source>
   <translation>Die Zeiten sind so gerundet, dass einige gleich sind; die Messwerte wurden gleichmäßig verteilt.</translation>
  </message>
  <message>
   <source>The clock goes back from {before} to {after}; the time counts on from there by the clock before.</source>
   <translation>Die Uhr springt von {before} zurück auf {after}; die Zeit zählt nach der Uhr davor weiter.</translation>
  </message>
  <message>
   <source>The clock goes ahead from {before} to {after}; the time counts on from there by the clock before.</source>
   <translation>Die Uhr springt von {before} vor auf {after}; die Zeit zählt nach der Uhr davor weiter.</translation>
  </message>
  <message>
   <source>{file}, line {line}: the time is {found}; allowed is a date such as 2015-02-02 14:19:00, or seconds in every line.</source>
   <translation>{file}, Zeile {line}: Die Zeit ist {found}; erlaubt ist ein Datum wie 2015-02-02 14:19:00 oder Sekunden in jeder Zeile.</translation>
  </message>
  <message>
   <source>{code} ({n})</source>
   <translation>{code} ({n})</translation>
  </message>
  <message>
   <source>{file}, line {line}, column {column}: the {quantity} is {found}; allowed is a number from {least} to {most} {unit}.</source>
   <translation>{file}, Zeile {line}, Spalte {column}: {quantity} ist {found}; erlaubt ist eine Zahl von {least} bis {most} {unit}.</translation>
  </message>
  <message>
   <source>{n} lines have no reading and were left out.</source>
   <translation>Zeilen ohne Messwert, ausgelassen: {n}.</translation>
  </message>
  <message>
   <source>Taken as no reading: {codes}.</source>
   <translation>Als „kein Messwert“ gelesen: {codes}.</translation>
  </message>
  <message>
   <source>The file ends within a line; that line was left out.</source>
   <translation>Die Datei endet mitten in einer Zeile; diese wurde ausgelassen.</translation>
  </message>
  <message>
   <source>{file} has times with and without a time zone; use one kind.</source>
   <translation>{file} hat Zeiten mit und ohne Zeitzone; nur eine Art verwenden.</translation>
  </message>
  <message>
   <source>{file} was emptied while it was read.</source>
   <translation>{file} wurde geleert, während sie gelesen wurde.</translation>
  </message>
  <message>
   <source>{file}, line {line}: {n} columns found, at least {wanted} are needed.</source>
   <translation>{file}, Zeile {line}: {n} Spalten gefunden, nötig sind mindestens {wanted}.</translation>
  </message>
  <message>
   <source>{file}, line {line}: {n} columns found where the line of names has {wanted}. With decimal commas, part the columns by semicolons or tabs.</source>
   <translation>{file}, Zeile {line}: {n} Spalten gefunden, die Namenszeile hat {wanted}. Bei Dezimalkommas die Spalten durch Semikolon oder Tabulator trennen.</translation>
  </message>
  <message>
   <source>field larger than field limit (131072)</source>
   <translation>ein Feld ist länger als erlaubt (131072 Zeichen)</translation>
  </message>
  <message>
   <source>{path} holds no text, so it cannot be read as a table; save it as CSV from the program that made it.</source>
   <translation>{path} enthält keinen Text und lässt sich nicht als Tabelle lesen; aus dem Programm, das sie erzeugt hat, als CSV speichern.</translation>
  </message>
  <message>
   <source>{file} has a quotation mark that is never closed.</source>
   <translation>{file} hat ein Anführungszeichen, das nie geschlossen wird.</translation>
  </message>
  <message>
   <source>{file} is not a table: {why}.</source>
   <translation>{file} ist keine Tabelle: {why}.</translation>
  </message>
  <message>
   <source>The times count from 1970 in UTC, so the hours of the day are those of UTC.</source>
   <translation>Die Zeiten zählen ab 1970 in UTC; die Tagesstunden sind also die von UTC.</translation>
  </message>
  <message>
   <source>The times name no unit and are taken as seconds.</source>
   <translation>Die Zeiten nennen keine Einheit und werden als Sekunden gelesen.</translation>
  </message>
  <message>
   <source>The times have no date, so the first reading stands at Monday 00:00.</source>
   <translation>Die Zeiten haben kein Datum; der erste Messwert steht daher bei Montag 00:00.</translation>
  </message>
  <message>
   <source>{file} has times such as {time}, which may be hours and minutes or minutes and seconds.</source>
   <translation>{file} hat Zeiten wie {time}; das können Stunden und Minuten oder Minuten und Sekunden sein.</translation>
  </message>
  <message>
   <source>The times are spreadsheet dates: {found} is {date}.</source>
   <translation>Die Zeiten sind Datumszahlen einer Tabellenkalkulation: {found} ist {date}.</translation>
  </message>
  <message>
   <source>hours and minutes</source>
   <translation>Stunden und Minuten</translation>
  </message>
  <message>
   <source>minutes and seconds</source>
   <translation>Minuten und Sekunden</translation>
  </message>
  <message>
   <source>Say {choices}.</source>
   <translation>Angeben: {choices}.</translation>
  </message>
  <message>
   <source>{choice} ({meaning})</source>
   <translation>{choice} ({meaning})</translation>
  </message>
  <message>
   <source>{found} is {value}</source>
   <translation>{found} ist {value}</translation>
  </message>
  <message>
   <source>{file} has numbers such as {found}, and none that tells whether its mark parts decimals or thousands.</source>
   <translation>{file} hat Zahlen wie {found} und keine, die sagt, ob das Zeichen Dezimalen oder Tausender trennt.</translation>
  </message>
  <message>
   <source>{key} is {file}, which lies outside the folder of the scenario, so it is not read unasked. Put it beside the scenario, or allow it: on the command line with gloaming --any-log, in the window by choosing it there.</source>
   <translation>{key} ist {file} und liegt außerhalb des Ordners des Szenarios, wird also nicht ungefragt gelesen. Neben das Szenario legen oder erlauben: auf der Kommandozeile mit gloaming --any-log, im Fenster, indem man sie dort auswählt.</translation>
  </message>
  <message>
   <source>{file} is no weather file that can be read: an EPW begins with LOCATION, and the second line of a TMY3 with Date (MM/DD/YYYY).</source>
   <translation>{file} ist keine lesbare Wetterdatei: Eine EPW beginnt mit LOCATION, die zweite Zeile einer TMY3 mit Date (MM/DD/YYYY).</translation>
  </message>
  <message>
   <source>weather file</source>
   <translation>Wetterdatei</translation>
  </message>
  <message>
   <source>light.pattern.weather_file names {file}, and there is no such file beside the scenario. Save the scenario first, and put the weather file beside it.</source>
   <translation>light.pattern.weather_file nennt {file}, und neben dem Szenario liegt keine solche Datei. Zuerst das Szenario speichern, dann die Wetterdatei daneben legen.</translation>
  </message>
  <message>
   <source>{file}, line {line}: it should name the station, its latitude, longitude and hours ahead of UTC, parted by commas.</source>
   <translation>{file}, Zeile {line}: Hier sollten Station, Breite, Länge und Stunden vor UTC stehen, durch Kommas getrennt.</translation>
  </message>
  <message>
   <source>global horizontal irradiance</source>
   <translation>Globalbestrahlungsstärke</translation>
  </message>
  <message>
   <source>direct normal irradiance</source>
   <translation>Direktnormalstrahlung</translation>
  </message>
  <message>
   <source>diffuse horizontal irradiance</source>
   <translation>diffuse Horizontalstrahlung</translation>
  </message>
  <message>
   <source>global horizontal illuminance</source>
   <translation>Globalbeleuchtungsstärke</translation>
  </message>
  <message>
   <source>direct normal illuminance</source>
   <translation>Direktnormalbeleuchtungsstärke</translation>
  </message>
  <message>
   <source>diffuse horizontal illuminance</source>
   <translation>diffuse Horizontalbeleuchtungsstärke</translation>
  </message>
  <message>
   <source>air temperature</source>
   <translation>Lufttemperatur</translation>
  </message>
  <message>
   <source>{file}, line {line}: {found} is no month, day and hour from 1 to 24.</source>
   <translation>{file}, Zeile {line}: {found} ist kein Monat, Tag und keine Stunde von 1 bis 24.</translation>
  </message>
  <message>
   <source>{file}, line 2: there is no column {column}.</source>
   <translation>{file}, Zeile 2: Die Spalte {column} fehlt.</translation>
  </message>
  <message>
   <source>{file}, line {line}: expected {due}, found {found}. A weather year has every hour once, from 1 January 01:00 to 31 December 24:00.</source>
   <translation>{file}, Zeile {line}: erwartet {due}, gefunden {found}. Ein Wetterjahr hat jede Stunde einmal, vom 1. Januar 01:00 bis zum 31. Dezember 24:00.</translation>
  </message>
  <message>
   <source>{file}, line {line} has {n} columns; {quantity} should stand in column {place}. The file may be cut off.</source>
   <translation>{file}, Zeile {line} hat {n} Spalten; {quantity} sollte in Spalte {place} stehen. Die Datei ist vielleicht abgeschnitten.</translation>
  </message>
  <message>
   <source>{file}, line {line}, column {place}: {quantity} is {found}; {low} to {high} is allowed.</source>
   <translation>{file}, Zeile {line}, Spalte {place}: {quantity} ist {found}; erlaubt ist {low} bis {high}.</translation>
  </message>
  <message>
   <source>{file} ends at line {line}, before {due}: it holds {n} hours of 8760. Fetch the file again.</source>
   <translation>{file} endet in Zeile {line}, vor {due}: Sie enthält {n} von 8760 Stunden. Die Datei noch einmal holen.</translation>
  </message>
  <message>
   <source>Light of {as_is} days as the file has it, of {hundreds} days in hundreds of lux; of {rest} days, whose light is missing or contradicts the power of the sun, from that power: {diffuse} lm/W for the sky, {normal} lm/W for the sun.</source>
   <translation>Licht von {as_is} Tagen wie in der Datei, von {hundreds} Tagen in Hunderten Lux; von {rest} Tagen, deren Licht fehlt oder der Sonnenleistung widerspricht, aus dieser Leistung: {diffuse} lm/W für den Himmel, {normal} lm/W für die Sonne.</translation>
  </message>
  <message>
   <source>Weather of {site} ({file}), {latitude} north, {longitude} east; its place counts.</source>
   <translation>Wetter von {site} ({file}), {latitude} Nord, {longitude} Ost; deren Ort gilt.</translation>
  </message>
  <message>
   <source>{n} missing hours of {quantity} have the value of the nearest day at that hour.</source>
   <translation>{n} fehlende Stunden von {quantity} haben den Wert des nächsten Tages zur selben Stunde.</translation>
  </message>
  <message>
   <source>Its columns of light are empty or contradict those of power, so all light is taken from the power of the sun: {diffuse} lm/W for the sky, {normal} lm/W for the sun.</source>
   <translation>Ihre Lichtspalten sind leer oder widersprechen denen der Leistung; alles Licht kommt daher aus der Sonnenleistung: {diffuse} lm/W für den Himmel, {normal} lm/W für die Sonne.</translation>
  </message>
  <message>
   <source>{n} hours of 29 February were left out.</source>
   <translation>{n} Stunden des 29. Februar wurden ausgelassen.</translation>
  </message>
  <message>
   <source>{file}: {n} of 8760 hours have no {quantity}; that is too much to be filled in.</source>
   <translation>{file}: {n} von 8760 Stunden haben keine {quantity}; das ist zu viel, um es zu ergänzen.</translation>
  </message>
  <message>
   <source>“{found}” is no address of a meter; allowed is a host such as 192.0.2.7 or 192.0.2.7:5025, a serial line such as COM3 or /dev/ttyUSB0, or a VISA resource name such as USB0::0x1234::0x5678::A1::INSTR.</source>
   <translation>„{found}“ ist keine Adresse eines Messgeräts; erlaubt ist ein Rechner wie 192.0.2.7 oder 192.0.2.7:5025, eine serielle Schnittstelle wie COM3 oder /dev/ttyUSB0 oder ein VISA-Name wie USB0::0x1234::0x5678::A1::INSTR.</translation>
  </message>
  <message>
   <source>The source gives no visible light, so lux say nothing about it.</source>
   <translation>Die Quelle gibt kein sichtbares Licht; Lux sagen daher nichts über sie.</translation>
  </message>
  <message>
   <source>the curve has {n} points; at least {least} are needed</source>
   <translation>die Kennlinie hat {n} Punkte; mindestens {least} sind nötig</translation>
  </message>
  <message>
   <source>the curve holds no point at which the panel gives power</source>
   <translation>die Kennlinie enthält keinen Punkt, an dem das Modul Leistung abgibt</translation>
  </message>
  <message>
   <source>the curve begins at {volts}; measure from short circuit on</source>
   <translation>die Kennlinie beginnt bei {volts}; ab dem Kurzschluss messen</translation>
  </message>
  <message>
   <source>the curve ends at {volts} with {amps}; measure on until the current is zero</source>
   <translation>die Kennlinie endet bei {volts} mit {amps}; weiter messen, bis der Strom null ist</translation>
  </message>
  <message>
   <source>point {number}: {fault}</source>
   <translation>Punkt {number}: {fault}</translation>
  </message>
  <message>
   <source>the fill factor, max_power_V · max_power_A over open_circuit_V · short_circuit_A, is {fill}; a panel has {low} to {high}</source>
   <translation>der Füllfaktor, max_power_V · max_power_A durch open_circuit_V · short_circuit_A, ist {fill}; ein Modul hat {low} bis {high}</translation>
  </message>
  <message>
   <source>{key} is missing; the maximum power point has a current and a voltage</source>
   <translation>{key} fehlt; der MPP hat einen Strom und eine Spannung</translation>
  </message>
  <message>
   <source>a data sheet has 1 to {most} points, found {n}</source>
   <translation>ein Datenblatt hat 1 bis {most} Punkte, gefunden: {n}</translation>
  </message>
  <message>
   <source>the photocurrent of every data-sheet point must be above zero</source>
   <translation>der Photostrom jedes Datenblattpunkts muss über null liegen</translation>
  </message>
  <message>
   <source>max_power_V ({peak}) must lie below open_circuit_V ({end})</source>
   <translation>max_power_V ({peak}) muss unter open_circuit_V ({end}) liegen</translation>
  </message>
  <message>
   <source>max_power_V ({peak}) is less than half of open_circuit_V ({end}), which no panel does</source>
   <translation>max_power_V ({peak}) ist weniger als die Hälfte von open_circuit_V ({end}); das hat kein Modul</translation>
  </message>
  <message>
   <source>max_power_A ({peak}) must lie below short_circuit_A ({end})</source>
   <translation>max_power_A ({peak}) muss unter short_circuit_A ({end}) liegen</translation>
  </message>
  <message>
   <source>max_power_A ({peak}) is less than half of short_circuit_A ({end}), which no panel does</source>
   <translation>max_power_A ({peak}) ist weniger als die Hälfte von short_circuit_A ({end}); das hat kein Modul</translation>
  </message>
  <message>
   <source>points {n} and {m} have the same illuminance_lx and source; give each once</source>
   <translation>die Punkte {n} und {m} haben gleiche illuminance_lx und source; jede Kombination nur einmal angeben</translation>
  </message>
  <message>
   <source>short_circuit_A ({current} at {level}) does not rise with light against point {m} ({other_current} at {other_level})</source>
   <translation>short_circuit_A ({current} bei {level}) steigt gegenüber Punkt {m} ({other_current} bei {other_level}) nicht mit dem Licht</translation>
  </message>
  <message>
   <source>short_circuit_A per lux differs {factor} times from point {n}; current is nearly proportional to light</source>
   <translation>short_circuit_A je Lux weicht um das {factor}-Fache von Punkt {n} ab; der Strom ist fast proportional zum Licht</translation>
  </message>
  <message>
   <source>{key} ({value}) does not rise with light against point {n} ({other})</source>
   <translation>{key} ({value}) steigt gegenüber Punkt {n} ({other}) nicht mit dem Licht</translation>
  </message>
  <message>
   <source>never</source>
   <translation>nie</translation>
  </message>
  <message>
   <source>1/month</source>
   <translation>1/Monat</translation>
  </message>
  <message>
   <source>allowed is a number in {unit}, such as 12.5 {unit}</source>
   <translation>erlaubt ist eine Zahl in {unit}, etwa 12,5 {unit}</translation>
  </message>
  <message>
   <source>unknown</source>
   <translation>unbekannt</translation>
  </message>
  <message>
   <source>allowed is a number with ms, s, min, h, d or week, such as 90 min</source>
   <translation>erlaubt ist eine Zahl mit ms, s, min, h, d oder week (Woche), etwa 90 min</translation>
  </message>
  <message>
   <source>allowed is a plain number, such as 3 or 0.5</source>
   <translation>erlaubt ist eine reine Zahl, etwa 3 oder 0,5</translation>
  </message>
  <message>
   <source>allowed is a number in {unit}, also with p n µ m k M G, such as 4.7 m{unit}</source>
   <translation>erlaubt ist eine Zahl in {unit}, auch mit p n µ m k M G, etwa 4,7 m{unit}</translation>
  </message>
  <message>
   <source>Nothing was entered; {allowed}.</source>
   <translation>Nichts eingegeben; {allowed}.</translation>
  </message>
  <message>
   <source>"{text}" does not begin with a number; {allowed}.</source>
   <translation>„{text}“ beginnt nicht mit einer Zahl; {allowed}.</translation>
  </message>
  <message>
   <source>"{text}" has "{unit}" as its unit; {allowed}.</source>
   <translation>„{text}“ hat „{unit}“ als Einheit; {allowed}.</translation>
  </message>
  <message>
   <source>"{text}" is too large a number.</source>
   <translation>„{text}“ ist eine zu große Zahl.</translation>
  </message>
  <message>
   <source>"{text}" has its marks where no number has them; write it with one decimal mark, such as 1300.5.</source>
   <translation>„{text}“ hat Trennzeichen, wo keine Zahl sie hat; mit einem Dezimalzeichen schreiben, etwa 1300,5.</translation>
  </message>
  <message>
   <source>"{text}" can be read in two ways; write it with units, such as 1h30 or 1min30.</source>
   <translation>„{text}“ lässt sich auf zwei Arten lesen; mit Einheiten schreiben, etwa 1h30 oder 1min30.</translation>
  </message>
  <message>
   <source>"{text}" can be read in two ways; write {joined} or {split}.</source>
   <translation>„{text}“ lässt sich auf zwei Arten lesen; {joined} oder {split} schreiben.</translation>
  </message>
  <message>
   <source>The program's folder {folder} is missing beside it; install the program again.</source>
   <translation>Der Ordner {folder} des Programms fehlt; das Programm neu installieren.</translation>
  </message>
  <message>
   <source>The program's file {file} is missing; install the program again.</source>
   <translation>Die Datei {file} des Programms fehlt; das Programm neu installieren.</translation>
  </message>
  <message>
   <source>{file}: no rows below a line of column names.</source>
   <translation>{file}: keine Zeilen unter der Zeile mit den Spaltennamen.</translation>
  </message>
  <message>
   <source>There is no table at {path}.</source>
   <translation>Unter {path} gibt es keine Tabelle.</translation>
  </message>
  <message>
   <source>{file}: the row {row} needs {n} values.</source>
   <translation>{file}: Die Zeile {row} braucht {n} Werte.</translation>
  </message>
  <message>
   <source>{file}: the row {row} holds something else than numbers.</source>
   <translation>{file}: Die Zeile {row} enthält anderes als Zahlen.</translation>
  </message>
  <message>
   <source>Capacitance</source>
   <translation>Kapazität (gesamt)</translation>
  </message>
  <message>
   <source>Of the whole bank, as rated.</source>
   <translation>Der ganzen Bank, Nennwert.</translation>
  </message>
  <message>
   <source>Units that share the bank's voltage.</source>
   <translation>Einheiten, die sich die Spannung der Bank teilen.</translation>
  </message>
  <message>
   <source>Rated voltage per unit</source>
   <translation>Nennspannung je Einheit</translation>
  </message>
  <message>
   <source>Largest voltage that one unit may see.</source>
   <translation>Größte Spannung, die eine Einheit haben darf.</translation>
  </message>
  <message>
   <source>Series resistance (ESR)</source>
   <translation>Serienwiderstand (ESR)</translation>
  </message>
  <message>
   <source>Of the whole bank at room temperature, new.</source>
   <translation>Der ganzen Bank bei Raumtemperatur, neu.</translation>
  </message>
  <message>
   <source>Leakage current after 72 h</source>
   <translation>Leckstrom nach 72 h</translation>
  </message>
  <message>
   <source>At rated voltage, days after the first charge.</source>
   <translation>Bei Nennspannung, Tage nach der Erstladung.</translation>
  </message>
  <message>
   <source>Capacitance tolerance</source>
   <translation>Kapazitätstoleranz</translation>
  </message>
  <message>
   <source>Spread of one unit around its rating (share).</source>
   <translation>Streuung einer Einheit um ihren Nennwert (Anteil).</translation>
  </message>
  <message>
   <source>Years in service</source>
   <translation>Betriebsjahre</translation>
  </message>
  <message>
   <source>Age for which the bank is judged.</source>
   <translation>Alter, für das die Bank beurteilt wird.</translation>
  </message>
  <message>
   <source>Rated life</source>
   <translation>Nennlebensdauer</translation>
  </message>
  <message>
   <source>Hours to end of life at rated voltage and temperature.</source>
   <translation>Stunden bis zum Lebensende bei Nennspannung und Nenntemperatur.</translation>
  </message>
  <message>
   <source>Rated temperature</source>
   <translation>Nenntemperatur</translation>
  </message>
  <message>
   <source>Highest working temperature of a unit.</source>
   <translation>Höchste Betriebstemperatur einer Einheit.</translation>
  </message>
  <message>
   <source>Capacitance lost at end of life</source>
   <translation>Kapazitätsverlust am Lebensdauerende</translation>
  </message>
  <message>
   <source>Share of capacitance whose loss counts as the end; makers use 0.2 or 0.3.</source>
   <translation>Anteil der Kapazität, dessen Verlust als Ende zählt; Hersteller nehmen 0,2 oder 0,3.</translation>
  </message>
  <message>
   <source>ESR rise at end of life</source>
   <translation>ESR-Anstieg am Lebensende</translation>
  </message>
  <message>
   <source>Relative rise of series resistance that counts as the end; 1 means twice the new value.</source>
   <translation>Relativer Anstieg des Serienwiderstands, der als Ende zählt; 1 heißt das Doppelte des Neuwerts.</translation>
  </message>
  <message>
   <source>Life factor per 0.1 V below rating</source>
   <translation>Lebensdauerfaktor je 0,1 V unter Nennspannung</translation>
  </message>
  <message>
   <source>Factor on life for every 0.1 V that a unit stays below its rated voltage; 1: no effect.</source>
   <translation>Faktor auf die Lebensdauer je 0,1 V, die eine Einheit unter ihrer Nennspannung bleibt; 1: ohne Wirkung.</translation>
  </message>
  <message>
   <source>ESR in the cold</source>
   <translation>ESR bei Kälte</translation>
  </message>
  <message>
   <source>Series resistance at -20 °C over that at 20 °C.</source>
   <translation>Serienwiderstand bei −20 °C durch den bei 20 °C.</translation>
  </message>
  <message>
   <source>Voltage at the beginning</source>
   <translation>Anfangsspannung</translation>
  </message>
  <message>
   <source>Of the bank when the trace begins.</source>
   <translation>Der Bank zu Beginn des Verlaufs.</translation>
  </message>
  <message>
   <source>Lowest voltage per unit</source>
   <translation>Mindestspannung je Einheit</translation>
  </message>
  <message>
   <source>Voltage below which one unit must not fall; above 0 for hybrid (lithium-ion) capacitors, which then count as empty there.</source>
   <translation>Spannung, unter die eine Einheit nicht fallen darf; über 0 bei Hybridkondensatoren (Lithium-Ionen), die dann dort als leer gelten.</translation>
  </message>
  <message>
   <source>Capacitance slope</source>
   <translation>Kapazitätsanstieg</translation>
  </message>
  <message>
   <source>Relative rise of capacitance from 0.6 of rated voltage to 1.6 of it.</source>
   <translation>Relativer Anstieg der Kapazität vom 0,6- bis zum 1,6-Fachen der Nennspannung.</translation>
  </message>
  <message>
   <source>Capacitance bend</source>
   <translation>Kapazitätskrümmung</translation>
  </message>
  <message>
   <source>Curvature that lowers capacitance at low voltage.</source>
   <translation>Krümmung, die die Kapazität bei kleiner Spannung senkt.</translation>
  </message>
  <message>
   <source>Leakage current used</source>
   <translation>Angesetzter Leckstrom</translation>
  </message>
  <message>
   <source>Settled, or the mean of the first three days after the first charge.</source>
   <translation>Stabil, oder das Mittel der ersten drei Tage nach der Erstladung.</translation>
  </message>
  <message>
   <source>Initial leakage factor</source>
   <translation>Faktor des Anfangsleckstroms</translation>
  </message>
  <message>
   <source>Leakage in the first hours over the settled leakage.</source>
   <translation>Leckstrom der ersten Stunden durch den stabilen Leckstrom.</translation>
  </message>
  <message>
   <source>Leakage decay time</source>
   <translation>Abklingzeit des Leckstroms</translation>
  </message>
  <message>
   <source>Time constant of the fall of leakage; after three of them little is left of it.</source>
   <translation>Zeitkonstante, mit der der Leckstrom abklingt; nach dreien ist wenig davon übrig.</translation>
  </message>
  <message>
   <source>What keeps series units at equal voltage.</source>
   <translation>Was Einheiten in Reihe auf gleicher Spannung hält.</translation>
  </message>
  <message>
   <source>Balancing current</source>
   <translation>Symmetrierstrom</translation>
  </message>
  <message>
   <source>Taken by the balancing at rated voltage.</source>
   <translation>Von der Symmetrierung bei Nennspannung aufgenommen.</translation>
  </message>
  <message>
   <source>lowest_V ({lowest} V) must lie below rated_V ({rated} V)</source>
   <translation>lowest_V ({lowest} V) muss unter rated_V ({rated} V) liegen</translation>
  </message>
  <message>
   <source>January</source>
   <translation>Januar</translation>
  </message>
  <message>
   <source>February</source>
   <translation>Februar</translation>
  </message>
  <message>
   <source>March</source>
   <translation>März</translation>
  </message>
  <message>
   <source>April</source>
   <translation>April</translation>
  </message>
  <message>
   <source>May</source>
   <translation>Mai</translation>
  </message>
  <message>
   <source>June</source>
   <translation>Juni</translation>
  </message>
  <message>
   <source>July</source>
   <translation>Juli</translation>
  </message>
  <message>
   <source>August</source>
   <translation>August</translation>
  </message>
  <message>
   <source>September</source>
   <translation>September</translation>
  </message>
  <message>
   <source>October</source>
   <translation>Oktober</translation>
  </message>
  <message>
   <source>November</source>
   <translation>November</translation>
  </message>
  <message>
   <source>December</source>
   <translation>Dezember</translation>
  </message>
  <message>
   <source>{day} {month}</source>
   <translation>{day}. {month}</translation>
  </message>
  <message>
   <source>{key} ({found}) is no date; write month and day with two figures each, such as 12-24</source>
   <translation>{key} ({found}) ist kein Datum; Monat und Tag mit je zwei Ziffern schreiben, etwa 12-24</translation>
  </message>
  <message>
   <source>{key} ({found}) is no time of day; write hour and minute with two figures each, such as 14:10</source>
   <translation>{key} ({found}) ist keine Uhrzeit; Stunde und Minute mit je zwei Ziffern schreiben, etwa 14:10</translation>
  </message>
  <message>
   <source>time_zone ({found}) is no time zone; write a name of the IANA data base, such as Europe/Berlin or Etc/UTC</source>
   <translation>time_zone ({found}) ist keine Zeitzone; einen Namen der IANA-Datenbank schreiben, etwa Europe/Berlin oder Etc/UTC</translation>
  </message>
  <message>
   <source>Chemistry</source>
   <translation>Zellchemie</translation>
  </message>
  <message>
   <source>Sets the open-circuit voltage and the voltage window.</source>
   <translation>Bestimmt Leerlaufspannung und Spannungsfenster.</translation>
  </message>
  <message>
   <source>Cell capacity</source>
   <translation>Zellkapazität</translation>
  </message>
  <message>
   <source>Rated, of the cell.</source>
   <translation>Nennwert der Zelle.</translation>
  </message>
  <message>
   <source>Cells in the store.</source>
   <translation>Zellen im Speicher.</translation>
  </message>
  <message>
   <source>Resistance</source>
   <translation>Innenwiderstand</translation>
  </message>
  <message>
   <source>Of the whole store at room temperature, new.</source>
   <translation>Des ganzen Speichers bei Raumtemperatur, neu.</translation>
  </message>
  <message>
   <source>Self-discharge</source>
   <translation>Selbstentladung</translation>
  </message>
  <message>
   <source>Share of the capacity lost in a month.</source>
   <translation>Anteil der Kapazität, der in einem Monat verloren geht.</translation>
  </message>
  <message>
   <source>Charging current limit</source>
   <translation>Ladestromgrenze</translation>
  </message>
  <message>
   <source>Largest current into the cell.</source>
   <translation>Größter Strom in die Zelle.</translation>
  </message>
  <message>
   <source>Discharge current limit</source>
   <translation>Entladestromgrenze</translation>
  </message>
  <message>
   <source>Largest current out of the cell.</source>
   <translation>Größter Strom aus der Zelle.</translation>
  </message>
  <message>
   <source>Lowest charging temperature</source>
   <translation>Untere Ladetemperatur</translation>
  </message>
  <message>
   <source>No charging at or below this temperature.</source>
   <translation>Bei oder unter dieser Temperatur wird nicht geladen.</translation>
  </message>
  <message>
   <source>Highest charging temperature</source>
   <translation>Obere Ladetemperatur</translation>
  </message>
  <message>
   <source>No charging above this temperature.</source>
   <translation>Über dieser Temperatur wird nicht geladen.</translation>
  </message>
  <message>
   <source>Reduced charging below</source>
   <translation>Reduziertes Laden unter</translation>
  </message>
  <message>
   <source>Below this temperature charging is slowed down.</source>
   <translation>Unter dieser Temperatur wird langsamer geladen.</translation>
  </message>
  <message>
   <source>Share of charging current when cool</source>
   <translation>Ladestrom bei niedriger Temperatur</translation>
  </message>
  <message>
   <source>Share of the charging limit that is left when cool.</source>
   <translation>Anteil der Ladestromgrenze, der bei Kühle bleibt.</translation>
  </message>
  <message>
   <source>Capacity in the cold</source>
   <translation>Kapazität bei Kälte</translation>
  </message>
  <message>
   <source>Capacity at -20 °C over that at 20 °C.</source>
   <translation>Kapazität bei −20 °C durch die bei 20 °C.</translation>
  </message>
  <message>
   <source>Resistance in the cold</source>
   <translation>Widerstand bei Kälte</translation>
  </message>
  <message>
   <source>Resistance at -20 °C over that at 20 °C.</source>
   <translation>Widerstand bei −20 °C durch den bei 20 °C.</translation>
  </message>
  <message>
   <source>Full cycles to end of life</source>
   <translation>Vollzyklen bis Lebensende</translation>
  </message>
  <message>
   <source>Full cycles until 80 % is left.</source>
   <translation>Vollzyklen, bis 80 % übrig sind.</translation>
  </message>
  <message>
   <source>Full cycles a year</source>
   <translation>Vollzyklen im Jahr</translation>
  </message>
  <message>
   <source>Charge taken in a year over the capacity.</source>
   <translation>In einem Jahr entnommene Ladung durch die Kapazität.</translation>
  </message>
  <message>
   <source>Calendar ageing</source>
   <translation>Kalendarische Alterung</translation>
  </message>
  <message>
   <source>Share of the capacity lost in a year at rest at 25 °C; more when warmer.</source>
   <translation>Anteil der Kapazität, der in einem Jahr Ruhe bei 25 °C verloren geht; mehr bei Wärme.</translation>
  </message>
  <message>
   <source>Age for which the cell is judged.</source>
   <translation>Alter, für das die Zelle beurteilt wird.</translation>
  </message>
  <message>
   <source>Initial state of charge</source>
   <translation>Ladezustand zu Beginn</translation>
  </message>
  <message>
   <source>State of charge when the trace begins.</source>
   <translation>Ladezustand zu Beginn des Verlaufs.</translation>
  </message>
  <message>
   <source>charge_above_C ({low}) must lie below charge_below_C ({high})</source>
   <translation>charge_above_C ({low}) muss unter charge_below_C ({high}) liegen</translation>
  </message>
  <message>
   <source>charger.full_V ({full} V) must be higher than the bank's lowest voltage ({lowest} V: store.lowest_V times store.units_in_series)</source>
   <translation>charger.full_V ({full} V) muss über der Mindestspannung der Bank liegen ({lowest} V: store.lowest_V mal store.units_in_series)</translation>
  </message>
  <message>
   <source>charger.full_hysteresis_V ({hysteresis} V) must be less than the {room} V between charger.full_V and load.disconnect_V, or charging resumes only after the device is cut off</source>
   <translation>charger.full_hysteresis_V ({hysteresis} V) muss kleiner sein als die {room} V zwischen charger.full_V und load.disconnect_V, sonst wird erst wieder geladen, nachdem das Gerät abgeschaltet hat</translation>
  </message>
  <message>
   <source>load.connect_V ({connect} V) must be lower than charger.full_V ({full} V), or the device never connects</source>
   <translation>load.connect_V ({connect} V) muss unter charger.full_V ({full} V) liegen, sonst schaltet das Gerät nie ein</translation>
  </message>
  <message>
   <source>charger.full_V ({full} V) lies above {reach} V, where the capacitance of the store is known no more; its units are rated {rated} V together</source>
   <translation>charger.full_V ({full} V) liegt über {reach} V; dort ist die Kapazität des Speichers nicht mehr bekannt, die Nennspannung seiner Einheiten ist zusammen {rated} V</translation>
  </message>
  <message>
   <source>store.initial_V ({begins} V) lies above {reach} V, where the capacitance of the store is known no more; its units are rated {rated} V together</source>
   <translation>store.initial_V ({begins} V) liegt über {reach} V; dort ist die Kapazität des Speichers nicht mehr bekannt, die Nennspannung seiner Einheiten ist zusammen {rated} V</translation>
  </message>
  <message>
   <source>charger.full_V ({full} V) must be higher than {lowest} V, the voltage of an empty store (store.cells_in_series: {n}, {each} V each)</source>
   <translation>charger.full_V ({full} V) muss über {lowest} V liegen, der Spannung eines leeren Speichers (store.cells_in_series: {n}, je {each} V)</translation>
  </message>
  <message>
   <source>charger.full_hysteresis_V ({hysteresis} V) must be less than the {room} V between charger.full_V and an empty store ({lowest} V), or charging resumes only when it is empty</source>
   <translation>charger.full_hysteresis_V ({hysteresis} V) muss kleiner sein als die {room} V zwischen charger.full_V und leerem Speicher ({lowest} V), sonst wird erst wieder geladen, wenn er leer ist</translation>
  </message>
  <message>
   <source>panels.data_sheet, point {number}: {fault}</source>
   <translation>panels.data_sheet, Punkt {number}: {fault}</translation>
  </message>
  <message>
   <source>open_circuit_V ({volts} V) makes {each} V for each of the panels.cells_in_series ({n}); a cell of this technology has {least} to {most} V</source>
   <translation>open_circuit_V ({volts} V) ergibt {each} V für jede der panels.cells_in_series ({n}); eine Zelle dieser Technologie hat {least} bis {most} V</translation>
  </message>
  <message>
   <source>light.pattern is a log, but no log was read</source>
   <translation>light.pattern ist ein Lichtprotokoll, aber es wurde keines gelesen</translation>
  </message>
  <message>
   <source>panels.data_sheet, {fault}</source>
   <translation>panels.data_sheet, {fault}</translation>
  </message>
  <message>
   <source>no panel has these points; the nearest one misses {quantity} by {percent} %</source>
   <translation>diese Punkte hat kein Modul; das nächstliegende verfehlt {quantity} um {percent} %</translation>
  </message>
  <message>
   <source>panels.cells_in_series must be one number where a data sheet is given</source>
   <translation>panels.cells_in_series muss eine einzige Zahl sein, wenn ein Datenblatt angegeben ist</translation>
  </message>
  <message>
   <source>Clear</source>
   <translation>Klar</translation>
  </message>
  <message>
   <source>Share of the days of this month with a clear sky.</source>
   <translation>Anteil der Tage dieses Monats mit klarem Himmel.</translation>
  </message>
  <message>
   <source>Partly cloudy</source>
   <translation>Wechselnd bewölkt</translation>
  </message>
  <message>
   <source>Share of the days with sun and clouds. All other days are overcast: 0 and 0 is the cautious choice.</source>
   <translation>Anteil der Tage mit Sonne und Wolken. Alle übrigen Tage sind bedeckt: 0 und 0 ist die vorsichtige Wahl.</translation>
  </message>
  <message>
   <source>Ambient temperature</source>
   <translation>Umgebungstemperatur</translation>
  </message>
  <message>
   <source>Mean temperature at panel and store in this month.</source>
   <translation>Mittlere Temperatur an Modul und Speicher in diesem Monat.</translation>
  </message>
  <message>
   <source>Warmer and colder by</source>
   <translation>Wärmer und kälter um</translation>
  </message>
  <message>
   <source>By how much the warmest and the coldest hours of light lie above and below that mean.</source>
   <translation>Um wie viel die wärmsten und die kältesten Stunden mit Licht über und unter diesem Mittel liegen.</translation>
  </message>
  <message>
   <source>Tilt</source>
   <translation>Neigung</translation>
  </message>
  <message>
   <source>0 lies flat and looks up, 90 stands upright as on a wall, 180 looks down.</source>
   <translation>0 liegt flach und blickt nach oben, 90 steht aufrecht wie an einer Wand, 180 blickt nach unten.</translation>
  </message>
  <message>
   <source>Faces</source>
   <translation>Blickt nach</translation>
  </message>
  <message>
   <source>Direction that the panel faces: 0 north, 90 east, 180 south, 270 west.</source>
   <translation>Richtung, in die das Modul blickt: 0 Norden, 90 Osten, 180 Süden, 270 Westen.</translation>
  </message>
  <message>
   <source>Horizon</source>
   <translation>Horizont</translation>
  </message>
  <message>
   <source>Angle above level up to which houses, hills or trees hide the sky all around.</source>
   <translation>Winkel über der Waagrechten, bis zu dem Häuser, Hügel oder Bäume ringsum den Himmel verdecken.</translation>
  </message>
  <message>
   <source>Overhang</source>
   <translation>Überstand</translation>
  </message>
  <message>
   <source>Angle above level, straight ahead of the panel, from which on a roof or balcony hides the sky. Empty: nothing hangs over.</source>
   <translation>Winkel über der Waagrechten, geradeaus vor dem Modul, ab dem ein Dach oder Balkon den Himmel verdeckt. Leer: nichts steht über.</translation>
  </message>
  <message>
   <source>Ground</source>
   <translation>Boden</translation>
  </message>
  <message>
   <source>Share of the light on the ground that it throws back: grass and open ground about 0.2, snow 0.7, the shaded strip before a wall less.</source>
   <translation>Anteil des Lichts, den der Boden zurückwirft: Gras und offener Boden etwa 0,2, Schnee 0,7, der beschattete Streifen vor einer Wand weniger.</translation>
  </message>
  <message>
   <source>Shade factor</source>
   <translation>Schattenfaktor</translation>
  </message>
  <message>
   <source>Share of the light left by leaves, awnings or shading cloth.</source>
   <translation>Anteil des Lichts, den Blätter, Markisen oder Schattengewebe übrig lassen.</translation>
  </message>
  <message>
   <source>Behind glass</source>
   <translation>Hinter Glas</translation>
  </message>
  <message>
   <source>Coated window glass takes away most of the infrared that crystalline cells live on. How much light it takes is the cover transmittance.</source>
   <translation>Beschichtetes Fensterglas nimmt das meiste Infrarot weg, von dem kristalline Zellen leben. Wie viel Licht es nimmt, sagt der Transmissionsgrad der Abdeckung.</translation>
  </message>
  <message>
   <source>Daylight factor</source>
   <translation>Tageslichtquotient</translation>
  </message>
  <message>
   <source>Light at the place over light out of doors on open level ground, under an overcast sky: 0.05 by a window, 0.005 deep in a room. One reading beside the window sets it, see below.</source>
   <translation>Licht am Ort geteilt durch Licht im Freien auf offenem, ebenem Boden bei bedecktem Himmel: 0,05 am Fenster, 0,005 tief im Raum. Eine einzige Ablesung legt ihn fest, siehe unten.</translation>
  </message>
  <message>
   <source>Sunshine</source>
   <translation>Sonnenschein</translation>
  </message>
  <message>
   <source>Whether sunshine in the room counts. A place that no sunbeam meets has the sky alone, which is the cautious choice.</source>
   <translation>Ob Sonnenschein im Raum zählt. Ein Ort, den kein Sonnenstrahl trifft, hat nur den Himmel; das ist die vorsichtige Wahl.</translation>
  </message>
  <message>
   <source>Reading</source>
   <translation>Ablesung</translation>
  </message>
  <message>
   <source>What a lux meter read that faced as the panel faces, with the lamps off. Empty: no reading was taken, and the year counts as computed.</source>
   <translation>Was ein Luxmeter zeigte, ausgerichtet wie das Modul, bei ausgeschalteten Lampen. Leer: Es wurde nichts abgelesen, das Jahr gilt wie berechnet.</translation>
  </message>
  <message>
   <source>Date of the reading</source>
   <translation>Datum der Ablesung</translation>
  </message>
  <message>
   <source>Month and day, two figures each: 05-12 is 12 May.</source>
   <translation>Monat und Tag, je zwei Ziffern: 05-12 ist der 12. Mai.</translation>
  </message>
  <message>
   <source>Time of the reading</source>
   <translation>Uhrzeit der Ablesung</translation>
  </message>
  <message>
   <source>Hour and minute by the clock on the wall.</source>
   <translation>Stunde und Minute nach der Uhr an der Wand.</translation>
  </message>
  <message>
   <source>Sky at the reading</source>
   <translation>Himmel bei der Ablesung</translation>
  </message>
  <message>
   <source>What the sky was like. A clear sky differs least from one day to the next, an overcast one most.</source>
   <translation>Wie der Himmel war. Ein klarer unterscheidet sich von Tag zu Tag am wenigsten, ein bedeckter am meisten.</translation>
  </message>
  <message>
   <source>Days</source>
   <translation>Tage</translation>
  </message>
  <message>
   <source>Weekdays on which these lamps are lit.</source>
   <translation>Wochentage, an denen diese Lampen brennen.</translation>
  </message>
  <message>
   <source>From</source>
   <translation>Von</translation>
  </message>
  <message>
   <source>Hour of the day when the lamps come on.</source>
   <translation>Stunde, zu der die Lampen angehen.</translation>
  </message>
  <message>
   <source>To</source>
   <translation>Bis</translation>
  </message>
  <message>
   <source>Hour of the day when the lamps go off.</source>
   <translation>Stunde, zu der die Lampen ausgehen.</translation>
  </message>
  <message>
   <source>Lamp light</source>
   <translation>Lampenlicht</translation>
  </message>
  <message>
   <source>What the lamps alone give at the panel's place; read it after dark.</source>
   <translation>Was die Lampen allein am Ort des Moduls geben; nach Einbruch der Dunkelheit ablesen.</translation>
  </message>
  <message>
   <source>First day</source>
   <translation>Erster Tag</translation>
  </message>
  <message>
   <source>Month and day, two figures each: 12-24 is 24 December.</source>
   <translation>Monat und Tag, je zwei Ziffern: 12-24 ist der 24. Dezember.</translation>
  </message>
  <message>
   <source>Last day</source>
   <translation>Letzter Tag</translation>
  </message>
  <message>
   <source>Month and day; a range may pass New Year. Both days count.</source>
   <translation>Monat und Tag; über Neujahr hinweg ist erlaubt. Beide Tage zählen.</translation>
  </message>
  <message>
   <source>Daylight meanwhile</source>
   <translation>Tageslicht währenddessen</translation>
  </message>
  <message>
   <source>Lamps stay off on holidays. Behind closed blinds or shutters it is dark by day, too.</source>
   <translation>An freien Tagen bleiben die Lampen aus. Hinter geschlossenen Jalousien oder Läden ist es auch am Tag dunkel.</translation>
  </message>
  <message>
   <source>Calendar of</source>
   <translation>Kalender von</translation>
  </message>
  <message>
   <source>Year whose weekdays and dates count.</source>
   <translation>Jahr, dessen Wochentage und Daten gelten.</translation>
  </message>
  <message>
   <source>Latitude</source>
   <translation>Breite</translation>
  </message>
  <message>
   <source>North is positive, south negative.</source>
   <translation>Nord ist positiv, Süd negativ.</translation>
  </message>
  <message>
   <source>Longitude</source>
   <translation>Länge</translation>
  </message>
  <message>
   <source>East of Greenwich is positive, west negative.</source>
   <translation>Östlich von Greenwich ist positiv, westlich negativ.</translation>
  </message>
  <message>
   <source>Time zone</source>
   <translation>Zeitzone</translation>
  </message>
  <message>
   <source>Name of the IANA data base; it knows when clocks change. Etc/UTC never changes.</source>
   <translation>Name der IANA-Datenbank; sie weiß, wann Uhren umgestellt werden. Etc/UTC wird nie umgestellt.</translation>
  </message>
  <message>
   <source>Where the panel is</source>
   <translation>Wo das Modul ist</translation>
  </message>
  <message>
   <source>Out of doors, or in a room.</source>
   <translation>Im Freien oder in einem Raum.</translation>
  </message>
  <message>
   <source>Weather file</source>
   <translation>Wetterdatei</translation>
  </message>
  <message>
   <source>A year of weather beside the scenario, as EPW or TMY3. Its place and its temperatures count. Empty: the skies and temperatures of the months below.</source>
   <translation>Ein Wetterjahr neben dem Szenario, als EPW oder TMY3. Ihr Ort und ihre Temperaturen gelten. Leer: Himmel und Temperaturen der Monate unten.</translation>
  </message>
  <message>
   <source>Months</source>
   <translation>Monate</translation>
  </message>
  <message>
   <source>Skies and temperatures from January to December. The overcast days of a month come in one row.</source>
   <translation>Himmel und Temperaturen von Januar bis Dezember. Die bedeckten Tage eines Monats kommen am Stück.</translation>
  </message>
  <message>
   <source>One reading</source>
   <translation>Eine Ablesung</translation>
  </message>
  <message>
   <source>A reading on a known day sets the light of the year.</source>
   <translation>Eine Ablesung an einem bekannten Tag legt das Licht des Jahres fest.</translation>
  </message>
  <message>
   <source>Lamps</source>
   <translation>Lampen</translation>
  </message>
  <message>
   <source>Electric light beside the daylight.</source>
   <translation>Elektrisches Licht neben dem Tageslicht.</translation>
  </message>
  <message>
   <source>Holidays</source>
   <translation>Freie Tage</translation>
  </message>
  <message>
   <source>Dates on which lamps stay off.</source>
   <translation>Tage, an denen die Lampen ausbleiben.</translation>
  </message>
  <message>
   <source>Hung up on</source>
   <translation>Aufgehängt am</translation>
  </message>
  <message>
   <source>Month and day on which the device is hung up, at noon: Starts is judged from then.</source>
   <translation>Monat und Tag, an dem das Gerät aufgehängt wird, mittags: Von da an gilt Anlauf.</translation>
  </message>
  <message>
   <source>clear_share ({clear}) and partly_share ({partly}) must not exceed 1 together</source>
   <translation>clear_share ({clear}) und partly_share ({partly}) dürfen zusammen 1 nicht überschreiten</translation>
  </message>
  <message>
   <source>to_h ({end}) must be later than from_h ({start}); split hours that pass midnight into two</source>
   <translation>to_h ({end}) muss später als from_h ({start}) sein; Stunden über Mitternacht in zwei teilen</translation>
  </message>
  <message>
   <source>days must name at least one weekday</source>
   <translation>days muss mindestens einen Wochentag nennen</translation>
  </message>
  <message>
   <source>months must hold 12 entries, January to December; found {n}</source>
   <translation>months muss 12 Einträge haben, Januar bis Dezember; gefunden {n}</translation>
  </message>
  <message>
   <source>reading: on {date} at {time} the sun is down, so a reading says nothing about daylight; check date, time, latitude, longitude and time_zone</source>
   <translation>reading: Am {date} um {time} ist die Sonne untergegangen, eine Ablesung sagt dann nichts über Tageslicht; date, time, latitude, longitude und time_zone prüfen</translation>
  </message>
  <message>
   <source>Name</source>
   <translation>Name</translation>
  </message>
  <message>
   <source>What the device does in this phase.</source>
   <translation>Was das Gerät in dieser Phase tut.</translation>
  </message>
  <message>
   <source>Current</source>
   <translation>Strom</translation>
  </message>
  <message>
   <source>Constant current that the device draws.</source>
   <translation>Konstanter Strom, den das Gerät aufnimmt.</translation>
  </message>
  <message>
   <source>Power</source>
   <translation>Leistung</translation>
  </message>
  <message>
   <source>Constant power that the device draws.</source>
   <translation>Konstante Leistung, die das Gerät aufnimmt.</translation>
  </message>
  <message>
   <source>Resistance that the device connects.</source>
   <translation>Widerstand, den das Gerät anschaltet.</translation>
  </message>
  <message>
   <source>Duration</source>
   <translation>Dauer</translation>
  </message>
  <message>
   <source>Length of the phase; of a run until the store gives out the least that counts.</source>
   <translation>Dauer der Phase; bei einem Lauf, bis der Speicher leer ist, die kürzeste, die zählt.</translation>
  </message>
  <message>
   <source>Interval</source>
   <translation>Intervall</translation>
  </message>
  <message>
   <source>From one start to the next.</source>
   <translation>Von einem Beginn zum nächsten.</translation>
  </message>
  <message>
   <source>Days on which it is due.</source>
   <translation>Tage, an denen er ansteht.</translation>
  </message>
  <message>
   <source>Window opens.</source>
   <translation>Beginn des Zeitfensters.</translation>
  </message>
  <message>
   <source>Window closes.</source>
   <translation>Ende des Zeitfensters.</translation>
  </message>
  <message>
   <source>Start voltage</source>
   <translation>Startspannung</translation>
  </message>
  <message>
   <source>Store voltage that starts it.</source>
   <translation>Speicherspannung, die den Vorgang auslöst.</translation>
  </message>
  <message>
   <source>Wanted per day</source>
   <translation>Soll pro Tag</translation>
  </message>
  <message>
   <source>Runs a day that the design should reach.</source>
   <translation>Durchläufe am Tag, die der Entwurf erreichen soll.</translation>
  </message>
  <message>
   <source>Runs of the least length a day that the design should reach.</source>
   <translation>Läufe von mindestens dieser Dauer, die der Entwurf am Tag erreichen soll.</translation>
  </message>
  <message>
   <source>What it does.</source>
   <translation>Was dabei geschieht.</translation>
  </message>
  <message>
   <source>Schedule</source>
   <translation>Zeitplan</translation>
  </message>
  <message>
   <source>When it runs.</source>
   <translation>Wann er läuft.</translation>
  </message>
  <message>
   <source>Phases</source>
   <translation>Phasen</translation>
  </message>
  <message>
   <source>What it draws, one after another.</source>
   <translation>Was er aufnimmt, der Reihe nach.</translation>
  </message>
  <message>
   <source>Regulator</source>
   <translation>Regler</translation>
  </message>
  <message>
   <source>None, a linear regulator or a switching one.</source>
   <translation>Keiner, ein Linearregler oder ein Schaltregler.</translation>
  </message>
  <message>
   <source>Output voltage</source>
   <translation>Ausgangsspannung</translation>
  </message>
  <message>
   <source>At the device.</source>
   <translation>Am Gerät.</translation>
  </message>
  <message>
   <source>Dropout voltage</source>
   <translation>Dropout-Spannung</translation>
  </message>
  <message>
   <source>Least voltage across a linear regulator.</source>
   <translation>Kleinste Spannung über einem Linearregler.</translation>
  </message>
  <message>
   <source>Quiescent current</source>
   <translation>Eigenstromaufnahme</translation>
  </message>
  <message>
   <source>Ground or quiescent current of the regulator.</source>
   <translation>Masse- oder Ruhestrom des Reglers.</translation>
  </message>
  <message>
   <source>Efficiency</source>
   <translation>Wirkungsgrad</translation>
  </message>
  <message>
   <source>Of a switching regulator.</source>
   <translation>Eines Schaltreglers.</translation>
  </message>
  <message>
   <source>Minimum input</source>
   <translation>Mindesteingang</translation>
  </message>
  <message>
   <source>Least input of a switching regulator.</source>
   <translation>Kleinste Eingangsspannung eines Schaltreglers.</translation>
  </message>
  <message>
   <source>Connect voltage</source>
   <translation>Einschaltspannung</translation>
  </message>
  <message>
   <source>Rising store voltage at which the device is connected.</source>
   <translation>Steigende Speicherspannung, bei der das Gerät eingeschaltet wird.</translation>
  </message>
  <message>
   <source>Falling voltage at which it is cut off.</source>
   <translation>Fallende Spannung, bei der es abgeschaltet wird.</translation>
  </message>
  <message>
   <source>Minimum operating voltage</source>
   <translation>Mindest-Betriebsspannung</translation>
  </message>
  <message>
   <source>Least terminal voltage at which the device works.</source>
   <translation>Kleinste Klemmenspannung, bei der das Gerät arbeitet.</translation>
  </message>
  <message>
   <source>Reconnect delay</source>
   <translation>Wiedereinschaltverzögerung</translation>
  </message>
  <message>
   <source>Least time from a cut-off to the next connect.</source>
   <translation>Kürzeste Zeit vom Abschalten bis zum nächsten Einschalten.</translation>
  </message>
  <message>
   <source>Between store and device.</source>
   <translation>Zwischen Speicher und Gerät.</translation>
  </message>
  <message>
   <source>Bulk capacitance</source>
   <translation>Stützkapazität</translation>
  </message>
  <message>
   <source>On the device's side; filled at every connect.</source>
   <translation>Auf der Geräteseite; wird bei jedem Einschalten geladen.</translation>
  </message>
  <message>
   <source>Start-up</source>
   <translation>Anlauf</translation>
  </message>
  <message>
   <source>What the device draws after every connect, before its first operation.</source>
   <translation>Was das Gerät nach jedem Einschalten aufnimmt, vor seinem ersten Vorgang.</translation>
  </message>
  <message>
   <source>Sleep current</source>
   <translation>Schlafstrom</translation>
  </message>
  <message>
   <source>Of the device between operations.</source>
   <translation>Des Geräts zwischen den Vorgängen.</translation>
  </message>
  <message>
   <source>Operations</source>
   <translation>Vorgänge</translation>
  </message>
  <message>
   <source>What the device does.</source>
   <translation>Was das Gerät tut.</translation>
  </message>
  <message>
   <source>Moves</source>
   <translation>Bewegt</translation>
  </message>
  <message>
   <source>What the device moves, if anything; brings up the cautions that apply.</source>
   <translation>Was das Gerät bewegt, falls überhaupt etwas; blendet die passenden Warnhinweise ein.</translation>
  </message>
  <message>
   <source>Load output limit</source>
   <translation>Grenze des Lastausgangs</translation>
  </message>
  <message>
   <source>Largest current that the board's load output carries, a rating. Empty: the load sits directly on the store.</source>
   <translation>Größter Strom, den der Lastausgang der Platine trägt, ein Grenzwert. Leer: Die Last hängt direkt am Speicher.</translation>
  </message>
  <message>
   <source>Indicator level</source>
   <translation>Schwelle der Anzeige</translation>
  </message>
  <message>
   <source>Store voltage at which an indicator says that it is charged. Empty: none, or a share.</source>
   <translation>Speicherspannung, bei der eine Anzeige „geladen“ meldet. Leer: keine, oder ein Anteil.</translation>
  </message>
  <message>
   <source>Indicator, share of energy</source>
   <translation>Anzeige, Anteil der Energie</translation>
  </message>
  <message>
   <source>The same as a share of the energy of a full store, where no voltage is given.</source>
   <translation>Dasselbe als Anteil der Energie eines vollen Speichers, wo keine Spannung angegeben ist.</translation>
  </message>
  <message>
   <source>Energy for a last action</source>
   <translation>Notreserve</translation>
  </message>
  <message>
   <source>Energy kept for one last safe action, such as closing a valve.</source>
   <translation>Energie, die für eine letzte sichere Handlung bleibt, etwa das Schließen eines Ventils.</translation>
  </message>
  <message>
   <source>give exactly one of current_A, power_W and resistance_ohm, found none</source>
   <translation>genau eines von current_A, power_W und resistance_ohm angeben; gefunden: keines</translation>
  </message>
  <message>
   <source>give exactly one of current_A, power_W and resistance_ohm, found {keys}</source>
   <translation>genau eines von current_A, power_W und resistance_ohm angeben; gefunden: {keys}</translation>
  </message>
  <message>
   <source>to_h ({end}) must be later than from_h ({start})</source>
   <translation>to_h ({end}) muss nach from_h ({start}) liegen</translation>
  </message>
  <message>
   <source>phases must hold at least one phase</source>
   <translation>phases muss mindestens eine Phase enthalten</translation>
  </message>
  <message>
   <source>what runs until the store gives out has one phase, found {n}; what comes before it belongs to start_up</source>
   <translation>was läuft, bis der Speicher leer ist, hat eine Phase, gefunden: {n}; was davor kommt, gehört zu start_up</translation>
  </message>
  <message>
   <source>the phases last {length}, which does not fit the interval_s of {interval}</source>
   <translation>die Phasen dauern {length} und passen damit nicht in das interval_s von {interval}</translation>
  </message>
  <message>
   <source>an operation with the schedule until_empty must be the only one, found {n}</source>
   <translation>ein Vorgang mit dem Zeitplan until_empty muss der einzige sein, gefunden: {n}</translation>
  </message>
  <message>
   <source>connect_V ({connect} V) must be higher than disconnect_V ({disconnect} V)</source>
   <translation>connect_V ({connect} V) muss über disconnect_V ({disconnect} V) liegen</translation>
  </message>
  <message>
   <source>a day</source>
   <translation>einen Tag</translation>
  </message>
  <message>
   <source>a week</source>
   <translation>eine Woche</translation>
  </message>
  <message>
   <source>a month</source>
   <translation>einen Monat</translation>
  </message>
  <message>
   <source>half a year</source>
   <translation>ein halbes Jahr</translation>
  </message>
  <message>
   <source>a year</source>
   <translation>ein Jahr</translation>
  </message>
  <message>
   <source>three years</source>
   <translation>drei Jahre</translation>
  </message>
  <message>
   <source>{level} ({origin})</source>
   <translation>{level} ({origin})</translation>
  </message>
  <message>
   <source>Light: {level}, {hours}, {days}; {how}. Measure with a lux meter that faces as the panel will face: real places differ several times over.</source>
   <translation>Licht: {level}, {hours}, {days}; {how}. Mit einem Luxmeter messen, das so ausgerichtet ist wie später das Modul: Wirkliche Orte unterscheiden sich um ein Mehrfaches.</translation>
  </message>
  <message>
   <source>from Monday to Friday and on Sundays</source>
   <translation>von Montag bis Freitag und sonntags</translation>
  </message>
  <message>
   <source>What it does: {work}. Asleep it takes {sleep} ({origin}). It works {often}, {when}.</source>
   <translation>Was es tut: {work}. Im Schlaf nimmt es {sleep} ({origin}). Es arbeitet {often}, {when}.</translation>
  </message>
  <message>
   <source>Dark: its nights, and once {days} days without light.</source>
   <translation>Dunkel: die Nächte und einmal {days} Tage ohne Licht.</translation>
  </message>
  <message>
   <source>Panels: {n} panels of {area} cm², {kind} (modelled, see the model note).</source>
   <translation>Module: {n} Stück mit {area} cm², {kind} (modelliert, siehe Modellbeschreibung).</translation>
  </message>
  <message>
   <source>Store: {name}, {size} (typical values, each with its source in the list of stores).</source>
   <translation>Speicher: {name}, {size} (typische Werte, jeder mit Quelle in der Liste der Speicher).</translation>
  </message>
  <message>
   <source>Price: {panels} for the panels and {store} for the store, in a unit of its own: a panel counts {each} and {area} a cm², a store its class of cost times {base} and {volume} a cm³ (own judgement, no source). Put in the prices of your parts to know better.</source>
   <translation>Preis: {panels} für die Module und {store} für den Speicher, in einer eigenen Einheit: Ein Modul zählt {each} und {area} je cm², ein Speicher seine Kostenklasse mal {base} und {volume} je cm³ (eigene Einschätzung, ohne Quelle). Genauer wird es mit den Preisen eigener Teile.</translation>
  </message>
  <message>
   <source>Charger: switching converter, efficiency 85 %, quiescent current 0.5 µA; from an empty store it cold-starts at 5 % efficiency; the device runs on 3 V behind a regulator of 85 % ({origin}).</source>
   <translation>Laderegler: Schaltwandler, Wirkungsgrad 85 %, Eigenstrom 0,5 µA; bei leerem Speicher Kaltstart mit 5 % Wirkungsgrad; das Gerät läuft an 3 V hinter einem Regler mit 85 % ({origin}).</translation>
  </message>
  <message>
   <source>Parts: at first panels and store were those of your own that cost least, charger and regulator the guide's choice ({origin}). Any of them may have been changed since.</source>
   <translation>Teile: Zu Beginn waren Module und Speicher die günstigsten eigenen, Laderegler und Regler die Wahl des Wegweisers ({origin}). Jedes davon kann seither geändert worden sein.</translation>
  </message>
  <message>
   <source>Parts: at first all of them were the guide's choice ({origin}; stores with the sources in their list). Any of them may have been changed since.</source>
   <translation>Teile: Zu Beginn hat sie alle der Wegweiser gewählt ({origin}; Speicher mit den Quellen in ihrer Liste). Jedes davon kann seither geändert worden sein.</translation>
  </message>
  <message>
   <source>Light: {level}; {how}. Measure with a lux meter that faces as the panel will face: real places differ several times over.</source>
   <translation>Licht: {level}; {how}. Mit einem Luxmeter messen, das so ausgerichtet ist, wie das Modul hängen wird: Wirkliche Orte unterscheiden sich um ein Mehrfaches.</translation>
  </message>
  <message>
   <source>{start} to {end} h</source>
   <translation>{start} bis {end} Uhr</translation>
  </message>
  <message>
   <source>the panel faces as the meter did</source>
   <translation>das Modul ist ausgerichtet, wie es das Luxmeter war</translation>
  </message>
  <message>
   <source>measured by you</source>
   <translation>selbst gemessen</translation>
  </message>
  <message>
   <source>every day</source>
   <translation>jeden Tag</translation>
  </message>
  <message>
   <source>from Monday to Saturday</source>
   <translation>von Montag bis Samstag</translation>
  </message>
  <message>
   <source>from Monday to Friday</source>
   <translation>von Montag bis Freitag</translation>
  </message>
  <message>
   <source>What it does: it takes {power} all the time, because a battery of {energy} ({battery}, from memory) lasts it {lasts}.</source>
   <translation>Was es tut: Es nimmt ständig {power}, denn eine Batterie von {energy} ({battery}, aus dem Gedächtnis) reicht ihm {lasts}.</translation>
  </message>
  <message>
   <source>Dark: its nights, and the days without light.</source>
   <translation>Dunkel: die Nächte und die Tage ohne Licht.</translation>
  </message>
  <message>
   <source>Panels: 1 panel of {area} cm², {kind} (modelled, see the model note).</source>
   <translation>Module: 1 Stück mit {area} cm², {kind} (modelliert, siehe Modellbeschreibung).</translation>
  </message>
  <message>
   <source>Frost: no lithium-ion or iron-phosphate cell was tried, because below 0 °C they take no charge.</source>
   <translation>Frost: Lithium-Ionen- und Eisenphosphatzellen wurden nicht versucht, denn unter 0 °C nehmen sie keine Ladung an.</translation>
  </message>
  <message>
   <source>Margin: {factor} times what is needed counts as Runs, because the light is a guess (own judgement).</source>
   <translation>Sicherheitsfaktor: Das {factor}-Fache des Nötigen zählt als Läuft, denn das Licht ist geschätzt (eigene Einschätzung).</translation>
  </message>
  <message>
   <source>From empty, the first result may take two hours of light, with the margin.</source>
   <translation>Aus leerem Zustand darf das erste Ergebnis zwei Stunden Licht brauchen, Sicherheitsfaktor eingerechnet.</translation>
  </message>
  <message>
   <source>{energy} are kept for one last safe move.</source>
   <translation>Vorbehalten für eine letzte sichere Bewegung: {energy}.</translation>
  </message>
  <message>
   <source>Margin: {factor} times what is needed counts as Runs, because reliability matters most (own judgement).</source>
   <translation>Sicherheitsfaktor: Das {factor}-Fache des Nötigen zählt als Läuft, denn Zuverlässigkeit ist am wichtigsten (eigene Einschätzung).</translation>
  </message>
  <message>
   <source>Judged after {years} years of ageing, not as new.</source>
   <translation>Beurteilt nach {years} Jahren Alterung, nicht im Neuzustand.</translation>
  </message>
  <message>
   <source>Margin: {factor} times what is needed counts as Runs, because the light was measured (own judgement).</source>
   <translation>Sicherheitsfaktor: Das {factor}-Fache des Nötigen zählt als Läuft, denn das Licht wurde gemessen (eigene Einschätzung).</translation>
  </message>
  <message>
   <source>Facing: a week of {dull} overcast days in a row, {partly} with sun and clouds at {partly_level} times their light, and one clear day at {clear_level} times (own judgement; light by the sky model of the model note, upright at {latitude}° north, things around up to {horizon}°).</source>
   <translation>Ausrichtung: eine Woche aus {dull} bedeckten Tagen in Folge, {partly} mit Sonne und Wolken beim {partly_level}-Fachen ihres Lichts und einem klaren Tag beim {clear_level}-Fachen (eigene Einschätzung; Licht nach dem Himmelsmodell der Modellnotiz, senkrecht bei {latitude}° Nord, Umgebung bis {horizon}° hoch).</translation>
  </message>
  <message>
   <source>Facing: no sunny day is counted; every day is overcast.</source>
   <translation>Ausrichtung: Es wird kein sonniger Tag gezählt; jeder Tag ist bedeckt.</translation>
  </message>
  <message>
   <source>a short-range radio takes 36 µJ to send once (a maker's application note on advertising: 12.6 µC at 3 V)</source>
   <translation>ein Nahbereichsfunk braucht 36 µJ, um einmal zu senden (Applikationsschrift eines Herstellers zum Advertising: 12,6 µC bei 3 V)</translation>
  </message>
  <message>
   <source>A coin cell</source>
   <translation>Eine Knopfzelle</translation>
  </message>
  <message>
   <source>20 mm across, 3 V, 220 mAh</source>
   <translation>20 mm Durchmesser, 3 V, 220 mAh</translation>
  </message>
  <message>
   <source>Two AAA batteries</source>
   <translation>Zwei AAA-Batterien</translation>
  </message>
  <message>
   <source>alkaline, 1.1 Ah each</source>
   <translation>Alkali, je 1,1 Ah</translation>
  </message>
  <message>
   <source>Two AA batteries</source>
   <translation>Zwei AA-Batterien</translation>
  </message>
  <message>
   <source>alkaline, 2.4 Ah each</source>
   <translation>Alkali, je 2,4 Ah</translation>
  </message>
  <message>
   <source>Four AA batteries</source>
   <translation>Vier AA-Batterien</translation>
  </message>
  <message>
   <source>A rechargeable one, as in a phone</source>
   <translation>Ein Akku wie im Telefon</translation>
  </message>
  <message>
   <source>lithium, 1000 mAh</source>
   <translation>Lithium, 1000 mAh</translation>
  </message>
  <message>
   <source>I do not know</source>
   <translation>Das weiß ich nicht</translation>
  </message>
  <message>
   <source>or it has none</source>
   <translation>oder es hat keine</translation>
  </message>
  <message>
   <source>A day</source>
   <translation>Einen Tag</translation>
  </message>
  <message>
   <source>then it is empty or charged again</source>
   <translation>dann ist sie leer oder wird geladen</translation>
  </message>
  <message>
   <source>A week</source>
   <translation>Eine Woche</translation>
  </message>
  <message>
   <source>about seven days</source>
   <translation>etwa sieben Tage</translation>
  </message>
  <message>
   <source>A month</source>
   <translation>Einen Monat</translation>
  </message>
  <message>
   <source>about thirty days</source>
   <translation>etwa dreißig Tage</translation>
  </message>
  <message>
   <source>Half a year</source>
   <translation>Ein halbes Jahr</translation>
  </message>
  <message>
   <source>about 180 days</source>
   <translation>etwa 180 Tage</translation>
  </message>
  <message>
   <source>A year</source>
   <translation>Ein Jahr</translation>
  </message>
  <message>
   <source>it is changed once a year</source>
   <translation>sie wird einmal im Jahr gewechselt</translation>
  </message>
  <message>
   <source>Three years</source>
   <translation>Drei Jahre</translation>
  </message>
  <message>
   <source>or longer</source>
   <translation>oder länger</translation>
  </message>
  <message>
   <source>read the sensor</source>
   <translation>Sensor auslesen</translation>
  </message>
  <message>
   <source>send nearby, three times</source>
   <translation>in der Nähe senden, dreimal</translation>
  </message>
  <message>
   <source>Show something on e-paper</source>
   <translation>Etwas auf E-Papier anzeigen</translation>
  </message>
  <message>
   <source>fetch a picture by radio and redraw it</source>
   <translation>ein Bild per Funk holen und neu zeichnen</translation>
  </message>
  <message>
   <source>0.37 J to fetch a picture and 0.01 J to draw it (published measurement on one e-paper tag)</source>
   <translation>0,37 J, um ein Bild zu holen, und 0,01 J, um es zu zeichnen (veröffentlichte Messung an einem E-Papier-Schild)</translation>
  </message>
  <message>
   <source>Measure and report nearby</source>
   <translation>Messen und in der Nähe melden</translation>
  </message>
  <message>
   <source>temperature, humidity; short-range radio</source>
   <translation>Temperatur, Feuchte; Nahbereichsfunk</translation>
  </message>
  <message>
   <source>{radio}; 0.15 mJ to read a sensor ({origin})</source>
   <translation>{radio}; 0,15 mJ, um einen Sensor auszulesen ({origin})</translation>
  </message>
  <message>
   <source>Measure and report far away</source>
   <translation>Messen und in die Ferne melden</translation>
  </message>
  <message>
   <source>long-range radio, some kilometres</source>
   <translation>Weitbereichsfunk, einige Kilometer</translation>
  </message>
  <message>
   <source>a long-range radio is on the air for 165 ms to send 13 bytes (LoRa formula, spreading factor 9) at 44 mA and 3.3 V (current from memory): 24 mJ; 0.15 mJ to read a sensor ({origin})</source>
   <translation>ein Weitbereichsfunk sendet 165 ms lang für 13 Byte (LoRa-Formel, Spreizfaktor 9) mit 44 mA und 3,3 V (Strom aus dem Gedächtnis): 24 mJ; 0,15 mJ, um einen Sensor auszulesen ({origin})</translation>
  </message>
  <message>
   <source>Count</source>
   <translation>Zählen</translation>
  </message>
  <message>
   <source>people, doors, pulses; reports its count nearby</source>
   <translation>Personen, Türen, Impulse; meldet in der Nähe</translation>
  </message>
  <message>
   <source>{radio}; 6 µA to watch and count all the time ({origin})</source>
   <translation>{radio}; 6 µA, um ständig zu beobachten und zu zählen ({origin})</translation>
  </message>
  <message>
   <source>Sense carbon dioxide</source>
   <translation>Kohlendioxid messen</translation>
  </message>
  <message>
   <source>measure the air, report nearby</source>
   <translation>die Luft messen, in der Nähe melden</translation>
  </message>
  <message>
   <source>0.3 J for a reading (0.25 to 0.35 J by the data sheets of photo-acoustic sensors); {radio}</source>
   <translation>0,3 J je Messung (0,25 bis 0,35 J laut Datenblättern photoakustischer Sensoren); {radio}</translation>
  </message>
  <message>
   <source>Unlock a door or a drawer</source>
   <translation>Tür oder Schublade entriegeln</translation>
  </message>
  <message>
   <source>a small motor turns a bolt; a keypad or card is watched</source>
   <translation>ein kleiner Motor dreht den Riegel; Tasten oder Karte werden erkannt</translation>
  </message>
  <message>
   <source>0.45 J to turn a bolt (0.3 A at 3 V for half a second) and 15 mJ to read a card ({origin})</source>
   <translation>0,45 J, um einen Riegel zu drehen (0,3 A bei 3 V, eine halbe Sekunde), und 15 mJ, um eine Karte zu lesen ({origin})</translation>
  </message>
  <message>
   <source>Light something up</source>
   <translation>Etwas beleuchten</translation>
  </message>
  <message>
   <source>one small lamp for half a minute</source>
   <translation>ein Lämpchen, eine halbe Minute lang</translation>
  </message>
  <message>
   <source>1.8 J for half a minute of a lamp of 20 mA at 3 V ({origin})</source>
   <translation>1,8 J für ein Lämpchen von 20 mA bei 3 V, eine halbe Minute ({origin})</translation>
  </message>
  <message>
   <source>Take a picture</source>
   <translation>Ein Bild aufnehmen</translation>
  </message>
  <message>
   <source>one small picture, sent nearby</source>
   <translation>ein kleines Bild, in die Nähe gesendet</translation>
  </message>
  <message>
   <source>0.6 J to take a small picture and 1.2 J to send it over a short-range radio ({origin})</source>
   <translation>0,6 J für ein kleines Bild und 1,2 J, um es über Nahfunk zu senden ({origin})</translation>
  </message>
  <message>
   <source>Say where it is</source>
   <translation>Sagen, wo es ist</translation>
  </message>
  <message>
   <source>satellite position, sent far away</source>
   <translation>Satellitenortung, weit gesendet</translation>
  </message>
  <message>
   <source>2.3 J for a satellite receiver that finds its position in half a minute at 25 mA and 3 V (from memory), 24 mJ to send it by a long-range radio</source>
   <translation>2,3 J für einen Satellitenempfänger, der in einer halben Minute bei 25 mA und 3 V seinen Ort findet (aus dem Gedächtnis), 24 mJ, um ihn über Weitfunk zu senden</translation>
  </message>
  <message>
   <source>Open or close a small valve</source>
   <translation>Kleines Ventil öffnen, schließen</translation>
  </message>
  <message>
   <source>a latching valve, which stays where it is</source>
   <translation>ein bistabiles Ventil, das bleibt, wie es steht</translation>
  </message>
  <message>
   <source>0.6 J for one move of a latching solenoid (12 V, 1 A, 50 ms, from published valve data), charged slowly into its own capacitor at 83 % ({origin})</source>
   <translation>0,6 J für eine Bewegung eines bistabilen Hubmagneten (12 V, 1 A, 50 ms aus veröffentlichten Ventildaten), langsam mit 83 % in einen eigenen Kondensator geladen ({origin})</translation>
  </message>
  <message>
   <source>Turn or push something small</source>
   <translation>Etwas Kleines drehen oder schieben</translation>
  </message>
  <message>
   <source>a small gear motor for two seconds</source>
   <translation>ein kleiner Getriebemotor für zwei Sekunden</translation>
  </message>
  <message>
   <source>1 J for one move of a small gear motor ({origin})</source>
   <translation>1 J für eine Bewegung eines kleinen Getriebemotors ({origin})</translation>
  </message>
  <message>
   <source>None of these</source>
   <translation>Nichts davon</translation>
  </message>
  <message>
   <source>then the battery it lives on today tells</source>
   <translation>dann verrät es die Batterie, von der es heute lebt</translation>
  </message>
  <message>
   <source>what its battery gives today</source>
   <translation>was seine Batterie heute gibt</translation>
  </message>
  <message>
   <source>A device of your own</source>
   <translation>Ein eigenes Gerät</translation>
  </message>
  <message>
   <source>fetch the picture</source>
   <translation>Bild holen</translation>
  </message>
  <message>
   <source>drive the display</source>
   <translation>Anzeige ansteuern</translation>
  </message>
  <message>
   <source>send far</source>
   <translation>in die Ferne senden</translation>
  </message>
  <message>
   <source>report the count</source>
   <translation>Zählerstand melden</translation>
  </message>
  <message>
   <source>measure the air</source>
   <translation>Luft messen</translation>
  </message>
  <message>
   <source>read the card</source>
   <translation>Karte lesen</translation>
  </message>
  <message>
   <source>turn the bolt</source>
   <translation>Riegel drehen</translation>
  </message>
  <message>
   <source>light up</source>
   <translation>leuchten</translation>
  </message>
  <message>
   <source>take the picture</source>
   <translation>Bild aufnehmen</translation>
  </message>
  <message>
   <source>send the picture</source>
   <translation>Bild senden</translation>
  </message>
  <message>
   <source>find the position</source>
   <translation>Position bestimmen</translation>
  </message>
  <message>
   <source>fill the pulse capacitor</source>
   <translation>Pulskondensator laden</translation>
  </message>
  <message>
   <source>run the motor</source>
   <translation>Motor laufen lassen</translation>
  </message>
  <message>
   <source>Made by the guide. What it assumed then:</source>
   <translation>Vom Wegweiser gemacht. Was er damals annahm:</translation>
  </message>
  <message>
   <source>typical, common practice, no source</source>
   <translation>typisch, übliche Praxis, ohne Quelle</translation>
  </message>
  <message>
   <source>own judgement, no source</source>
   <translation>eigene Einschätzung, ohne Quelle</translation>
  </message>
  <message>
   <source>it hangs on a wall, which gets about a third of the light on the floor or desk (common practice, no source)</source>
   <translation>es hängt an einer Wand, die etwa ein Drittel des Lichts von Boden oder Schreibtisch bekommt (übliche Praxis, ohne Quelle)</translation>
  </message>
  <message>
   <source>it lies flat on the work surface, facing up, where the design value holds</source>
   <translation>es liegt flach auf der Arbeitsfläche, nach oben gewandt, wo der Planungswert gilt</translation>
  </message>
  <message>
   <source>only the lamps of the evening count; daylight comes on top</source>
   <translation>nur die Lampen am Abend zählen; Tageslicht kommt noch hinzu</translation>
  </message>
  <message>
   <source>On a corridor wall</source>
   <translation>An einer Flurwand</translation>
  </message>
  <message>
   <source>about 100 lx by design, a third of it on the wall</source>
   <translation>geplant etwa 100 lx, an der Wand ein Drittel</translation>
  </message>
  <message>
   <source>On a staircase wall</source>
   <translation>An einer Treppenhauswand</translation>
  </message>
  <message>
   <source>about 150 lx by design, a third of it on the wall</source>
   <translation>geplant etwa 150 lx, an der Wand ein Drittel</translation>
  </message>
  <message>
   <source>In an entrance hall</source>
   <translation>In einer Eingangshalle</translation>
  </message>
  <message>
   <source>about 200 lx by design, on the wall a third</source>
   <translation>geplant etwa 200 lx, an der Wand ein Drittel</translation>
  </message>
  <message>
   <source>On a desk</source>
   <translation>Auf einem Schreibtisch</translation>
  </message>
  <message>
   <source>about 500 lx by design on the desk top</source>
   <translation>geplant etwa 500 lx auf der Tischplatte</translation>
  </message>
  <message>
   <source>In a meeting room</source>
   <translation>In einem Besprechungsraum</translation>
  </message>
  <message>
   <source>about 500 lx on the table, a third on the wall</source>
   <translation>500 lx am Tisch, an der Wand ein Drittel</translation>
  </message>
  <message>
   <source>{where}; the room is lit six hours a day, while it is used</source>
   <translation>{where}; der Raum ist sechs Stunden am Tag beleuchtet, solange er benutzt wird</translation>
  </message>
  <message>
   <source>On a shelf away from the window</source>
   <translation>Auf einem Regal, fern vom Fenster</translation>
  </message>
  <message>
   <source>about 75 lx on upright faces in an office</source>
   <translation>im Büro etwa 75 lx auf senkrechten Flächen</translation>
  </message>
  <message>
   <source>it stands upright, where the design value for walls holds</source>
   <translation>es steht aufrecht, wo der Planungswert für Wände gilt</translation>
  </message>
  <message>
   <source>In a shop</source>
   <translation>In einem Laden</translation>
  </message>
  <message>
   <source>about 300 lx by design, half on the shelves</source>
   <translation>etwa 300 lx geplant, die Hälfte an den Regalen</translation>
  </message>
  <message>
   <source>EN 12464-1, sales areas, from memory</source>
   <translation>EN 12464-1, Verkaufsräume, aus dem Gedächtnis</translation>
  </message>
  <message>
   <source>it stands upright at the edge of a shelf, which gets about half of the light on the floor (common practice, no source)</source>
   <translation>es steht aufrecht an der Regalkante, die etwa die Hälfte des Lichts am Boden bekommt (übliche Praxis, ohne Quelle)</translation>
  </message>
  <message>
   <source>Near a machine</source>
   <translation>An einer Maschine</translation>
  </message>
  <message>
   <source>about 300 lx by design; dusty and warm</source>
   <translation>etwa 300 lx geplant; staubig und warm</translation>
  </message>
  <message>
   <source>it sits on the side of a machine at 35 °C, which gets about a third of the light on the bench (common practice, no source); dust takes a fifth (own judgement)</source>
   <translation>es sitzt bei 35 °C an der Seite einer Maschine, die etwa ein Drittel des Lichts der Werkbank bekommt (übliche Praxis, ohne Quelle); Staub nimmt ein Fünftel (eigene Einschätzung)</translation>
  </message>
  <message>
   <source>In a living room</source>
   <translation>In einem Wohnzimmer</translation>
  </message>
  <message>
   <source>about 75 lx in the evening</source>
   <translation>abends etwa 75 lx</translation>
  </message>
  <message>
   <source>In a dark corner at home</source>
   <translation>Zu Hause in einer dunklen Ecke</translation>
  </message>
  <message>
   <source>about 20 lx in the evening</source>
   <translation>abends etwa 20 lx</translation>
  </message>
  <message>
   <source>In a cupboard or a box</source>
   <translation>In Schrank oder Kiste</translation>
  </message>
  <message>
   <source>dark but for ten minutes a day</source>
   <translation>dunkel bis auf zehn Minuten am Tag</translation>
  </message>
  <message>
   <source>the door stands open for ten minutes a day (own judgement)</source>
   <translation>die Tür steht zehn Minuten am Tag offen (eigene Einschätzung)</translation>
  </message>
  <message>
   <source>Worn on the body</source>
   <translation>Am Körper getragen</translation>
  </message>
  <message>
   <source>about 100 lx by day on average</source>
   <translation>am Tag im Mittel etwa 100 lx</translation>
  </message>
  <message>
   <source>it faces forward, in rooms, and is covered by clothes or arms for part of the time</source>
   <translation>es blickt nach vorn, in Räumen, und ist zeitweise von Kleidung oder Armen verdeckt</translation>
  </message>
  <message>
   <source>By a window</source>
   <translation>An einem Fenster</translation>
  </message>
  <message>
   <source>about 1300 lx by day, less in winter</source>
   <translation>am Tag etwa 1300 lx, im Winter weniger</translation>
  </message>
  <message>
   <source>it looks out of the window</source>
   <translation>es blickt aus dem Fenster</translation>
  </message>
  <message>
   <source>Under a skylight</source>
   <translation>Unter einem Oberlicht</translation>
  </message>
  <message>
   <source>about 500 lx by day, less in winter</source>
   <translation>am Tag etwa 500 lx, im Winter weniger</translation>
  </message>
  <message>
   <source>a twentieth of the 10 000 lx of an overcast sky, from memory</source>
   <translation>ein Zwanzigstel der 10 000 lx eines bedeckten Himmels, aus dem Gedächtnis</translation>
  </message>
  <message>
   <source>it faces up, below the middle of the skylight</source>
   <translation>es blickt nach oben, unter der Mitte des Oberlichts</translation>
  </message>
  <message>
   <source>Outside on a wall or a door</source>
   <translation>Außen an Wand oder Tür</translation>
  </message>
  <message>
   <source>about 2000 lx on an overcast day</source>
   <translation>etwa 2000 lx an einem bedeckten Tag</translation>
  </message>
  <message>
   <source>an upright face gets 0.4 of an overcast sky's 9800 lx, and half of that where houses or trees stand opposite (from memory)</source>
   <translation>eine aufrechte Fläche bekommt das 0,4-Fache der 9800 lx eines bedeckten Himmels, und die Hälfte davon, wo Häuser oder Bäume gegenüberstehen (aus dem Gedächtnis)</translation>
  </message>
  <message>
   <source>it stands upright on the wall or the door</source>
   <translation>es sitzt senkrecht an Wand oder Tür</translation>
  </message>
  <message>
   <source>Outside under a roof</source>
   <translation>Außen unter einem Dach</translation>
  </message>
  <message>
   <source>about 1000 lx on an overcast day</source>
   <translation>etwa 1000 lx an einem bedeckten Tag</translation>
  </message>
  <message>
   <source>a tenth of the 9800 lx of an overcast sky</source>
   <translation>ein Zehntel der 9800 lx eines bedeckten Himmels</translation>
  </message>
  <message>
   <source>it hangs upright under the roof and sees the lower part of the sky</source>
   <translation>es hängt aufrecht unter dem Dach und sieht den unteren Teil des Himmels</translation>
  </message>
  <message>
   <source>then the light has to be measured</source>
   <translation>dann muss das Licht gemessen werden</translation>
  </message>
  <message>
   <source>Where the light was measured</source>
   <translation>Wo das Licht gemessen wurde</translation>
  </message>
  <message>
   <source>The whole year</source>
   <translation>Das ganze Jahr</translation>
  </message>
  <message>
   <source>December decides: short days and dull light</source>
   <translation>der Dezember entscheidet: kurze Tage, trübes Licht</translation>
  </message>
  <message>
   <source>Spring to autumn</source>
   <translation>Frühling bis Herbst</translation>
  </message>
  <message>
   <source>it may rest or be taken down in winter</source>
   <translation>im Winter darf es ruhen oder abgenommen werden</translation>
  </message>
  <message>
   <source>As such places usually are</source>
   <translation>So, wie es dort meistens ist</translation>
  </message>
  <message>
   <source>the level that such places have by design or habit</source>
   <translation>wie solche Orte geplant sind oder üblicherweise sind</translation>
  </message>
  <message>
   <source>I measured it</source>
   <translation>Ich habe es gemessen</translation>
  </message>
  <message>
   <source>with a lux meter that faced as the panel will</source>
   <translation>mit einem Luxmeter, ausgerichtet wie das Modul</translation>
  </message>
  <message>
   <source>I cannot measure there</source>
   <translation>Ich kann dort nicht messen</translation>
  </message>
  <message>
   <source>then nobody can tell</source>
   <translation>dann kann es niemand sagen</translation>
  </message>
  <message>
   <source>To the midday sun</source>
   <translation>Zur Mittagssonne</translation>
  </message>
  <message>
   <source>to the south in the north of the world: low winter sun reaches it</source>
   <translation>auf der Nordhalbkugel nach Süden: Die tiefe Wintersonne erreicht es</translation>
  </message>
  <message>
   <source>To the east or west</source>
   <translation>Nach Osten oder Westen</translation>
  </message>
  <message>
   <source>sun in the morning or in the afternoon</source>
   <translation>Sonne am Vormittag oder am Nachmittag</translation>
  </message>
  <message>
   <source>Away from the midday sun</source>
   <translation>Von der Mittagssonne weg</translation>
  </message>
  <message>
   <source>or in the shade of houses and trees: never any sun</source>
   <translation>oder im Schatten von Häusern und Bäumen: nie Sonne</translation>
  </message>
  <message>
   <source>I do not know yet</source>
   <translation>Das weiß ich noch nicht</translation>
  </message>
  <message>
   <source>then no sunny day is counted</source>
   <translation>dann wird kein sonniger Tag gezählt</translation>
  </message>
  <message>
   <source>Every minute</source>
   <translation>Jede Minute</translation>
  </message>
  <message>
   <source>every minute</source>
   <translation>jede Minute</translation>
  </message>
  <message>
   <source>1440 times a day</source>
   <translation>1440-mal am Tag</translation>
  </message>
  <message>
   <source>Every ten minutes</source>
   <translation>Alle zehn Minuten</translation>
  </message>
  <message>
   <source>every ten minutes</source>
   <translation>alle zehn Minuten</translation>
  </message>
  <message>
   <source>144 times a day</source>
   <translation>144-mal am Tag</translation>
  </message>
  <message>
   <source>Every hour</source>
   <translation>Jede Stunde</translation>
  </message>
  <message>
   <source>every hour</source>
   <translation>jede Stunde</translation>
  </message>
  <message>
   <source>24 times a day</source>
   <translation>24-mal am Tag</translation>
  </message>
  <message>
   <source>Every six hours</source>
   <translation>Alle sechs Stunden</translation>
  </message>
  <message>
   <source>every six hours</source>
   <translation>alle sechs Stunden</translation>
  </message>
  <message>
   <source>4 times a day</source>
   <translation>4-mal am Tag</translation>
  </message>
  <message>
   <source>Once a day</source>
   <translation>Einmal am Tag</translation>
  </message>
  <message>
   <source>once a day</source>
   <translation>einmal am Tag</translation>
  </message>
  <message>
   <source>7 times a week</source>
   <translation>7-mal in der Woche</translation>
  </message>
  <message>
   <source>Day and night</source>
   <translation>Tag und Nacht</translation>
  </message>
  <message>
   <source>day and night</source>
   <translation>Tag und Nacht</translation>
  </message>
  <message>
   <source>in the dark and in closures too</source>
   <translation>auch im Dunkeln und in Schließzeiten</translation>
  </message>
  <message>
   <source>Only while it is light</source>
   <translation>Nur solange es hell ist</translation>
  </message>
  <message>
   <source>only while it is light</source>
   <translation>nur solange es hell ist</translation>
  </message>
  <message>
   <source>it sleeps in the dark</source>
   <translation>im Dunkeln schläft es</translation>
  </message>
  <message>
   <source>Only while people are there</source>
   <translation>Nur solange Menschen da sind</translation>
  </message>
  <message>
   <source>only while people are there</source>
   <translation>nur solange Menschen da sind</translation>
  </message>
  <message>
   <source>it sleeps when the place is shut</source>
   <translation>es schläft, wenn geschlossen ist</translation>
  </message>
  <message>
   <source>No longer than usual</source>
   <translation>Nicht länger als sonst</translation>
  </message>
  <message>
   <source>its nights, and its days without lamps</source>
   <translation>die Nächte und die Tage ohne Lampen</translation>
  </message>
  <message>
   <source>A long weekend</source>
   <translation>Ein langes Wochenende</translation>
  </message>
  <message>
   <source>once dark for four days</source>
   <translation>einmal vier Tage dunkel</translation>
  </message>
  <message>
   <source>Two weeks' closure</source>
   <translation>Zwei Wochen geschlossen</translation>
  </message>
  <message>
   <source>once dark for 14 days</source>
   <translation>einmal 14 Tage dunkel</translation>
  </message>
  <message>
   <source>A summer closure</source>
   <translation>Sommerferien</translation>
  </message>
  <message>
   <source>once dark for six weeks</source>
   <translation>einmal sechs Wochen dunkel</translation>
  </message>
  <message>
   <source>The smallest size</source>
   <translation>Die kleinste Größe</translation>
  </message>
  <message>
   <source>least panel area, then the smallest store</source>
   <translation>kleinste Modulfläche, dann kleinster Speicher</translation>
  </message>
  <message>
   <source>Reliability first</source>
   <translation>Zuverlässigkeit zuerst</translation>
  </message>
  <message>
   <source>more margin, at least four days dark, parts three years old</source>
   <translation>höherer Sicherheitsfaktor, mindestens vier dunkle Tage, drei Jahre gealtert</translation>
  </message>
  <message>
   <source>The lowest price</source>
   <translation>Der niedrigste Preis</translation>
  </message>
  <message>
   <source>the lowest price of panels and store, roughly</source>
   <translation>ungefähr der niedrigste Preis von Modulen und Speicher</translation>
  </message>
  <message>
   <source>It runs soon after hanging up</source>
   <translation>Läuft bald nach dem Aufhängen</translation>
  </message>
  <message>
   <source>two hours of light from empty at most</source>
   <translation>aus leerem Zustand höchstens zwei Stunden Licht</translation>
  </message>
  <message>
   <source>Where will it be?</source>
   <translation>Wo kommt es hin?</translation>
  </message>
  <message>
   <source>Pick the nearest; the light can be measured on a later page.</source>
   <translation>Den ähnlichsten wählen; gemessenes Licht kommt auf einer späteren Seite.</translation>
  </message>
  <message>
   <source>In winter too?</source>
   <translation>Auch im Winter?</translation>
  </message>
  <message>
   <source>Daylight in December is a fraction of that in June.</source>
   <translation>Im Dezember gibt es nur einen Bruchteil des Tageslichts vom Juni.</translation>
  </message>
  <message>
   <source>How far north or south?</source>
   <translation>Wie weit im Norden oder Süden?</translation>
  </message>
  <message>
   <source>It decides how short the days of winter are; a rough answer is enough.</source>
   <translation>Davon hängt ab, wie kurz die Wintertage sind; eine grobe Antwort genügt.</translation>
  </message>
  <message>
   <source>How light is it there?</source>
   <translation>Wie hell ist es dort?</translation>
  </message>
  <message>
   <source>Levels are lighting design values or common practice; nothing replaces a lux meter.</source>
   <translation>Die Werte stammen aus der Lichtplanung oder üblicher Praxis; ein Luxmeter ersetzen sie nicht.</translation>
  </message>
  <message>
   <source>Which way does it face?</source>
   <translation>Wohin ist es ausgerichtet?</translation>
  </message>
  <message>
   <source>Where the sun reaches it, an average month is brighter than an overcast one.</source>
   <translation>Wo die Sonne hinkommt, ist ein mittlerer Monat heller als ein bedeckter.</translation>
  </message>
  <message>
   <source>What does it do?</source>
   <translation>Was tut es?</translation>
  </message>
  <message>
   <source>Pick what it mostly does.</source>
   <translation>Wählen, was es meistens tut.</translation>
  </message>
  <message>
   <source>Which battery does it live on today?</source>
   <translation>Von welcher Batterie lebt es heute?</translation>
  </message>
  <message>
   <source>What a device takes is told by the battery that it empties.</source>
   <translation>Was ein Gerät braucht, verrät die Batterie, die es leert.</translation>
  </message>
  <message>
   <source>How long does that last?</source>
   <translation>Wie lange reicht sie?</translation>
  </message>
  <message>
   <source>From fresh to empty, in ordinary use.</source>
   <translation>Von frisch bis leer, bei üblichem Gebrauch.</translation>
  </message>
  <message>
   <source>How often?</source>
   <translation>Wie oft?</translation>
  </message>
  <message>
   <source>On average; more rarely costs less.</source>
   <translation>Im Mittel; seltener kostet weniger.</translation>
  </message>
  <message>
   <source>When must it work?</source>
   <translation>Wann muss es arbeiten?</translation>
  </message>
  <message>
   <source>Sleeping at night saves most of the energy of many devices.</source>
   <translation>Nachts zu schlafen spart bei vielen Geräten die meiste Energie.</translation>
  </message>
  <message>
   <source>Is it ever dark for longer?</source>
   <translation>Ist es manchmal länger dunkel?</translation>
  </message>
  <message>
   <source>The longest stretch without light that it must survive.</source>
   <translation>Die längste Zeit ohne Licht, die es überstehen muss.</translation>
  </message>
  <message>
   <source>What matters most?</source>
   <translation>Was zählt am meisten?</translation>
  </message>
  <message>
   <source>Decides between designs that all work.</source>
   <translation>Entscheidet unter tauglichen Entwürfen.</translation>
  </message>
  <message>
   <source>Around 60° north</source>
   <translation>Um 60° Nord</translation>
  </message>
  <message>
   <source>Scandinavia, Scotland, Alaska: December has six hours of day</source>
   <translation>Skandinavien, Schottland, Alaska: Im Dezember ist es sechs Stunden Tag</translation>
  </message>
  <message>
   <source>Around 52° north</source>
   <translation>Um 52° Nord</translation>
  </message>
  <message>
   <source>England to Poland, the prairies of Canada: eight hours</source>
   <translation>England bis Polen, die Prärien Kanadas: acht Stunden</translation>
  </message>
  <message>
   <source>Around 42° north</source>
   <translation>Um 42° Nord</translation>
  </message>
  <message>
   <source>Spain, Italy, the north of Japan: nine hours</source>
   <translation>Spanien, Italien, der Norden Japans: neun Stunden</translation>
  </message>
  <message>
   <source>Around 30° north</source>
   <translation>Um 30° Nord</translation>
  </message>
  <message>
   <source>North Africa, Texas, the north of India: ten hours</source>
   <translation>Nordafrika, Texas, der Norden Indiens: zehn Stunden</translation>
  </message>
  <message>
   <source>Near the equator</source>
   <translation>Nahe am Äquator</translation>
  </message>
  <message>
   <source>all months are much alike</source>
   <translation>alle Monate sind sich sehr ähnlich</translation>
  </message>
  <message>
   <source>Around 35° south</source>
   <translation>Um 35° Süd</translation>
  </message>
  <message>
   <source>South Africa, Chile: June is the dark month</source>
   <translation>Südafrika, Chile: Der Juni ist der dunkle Monat</translation>
  </message>
  <message>
   <source>I would rather not say</source>
   <translation>Das möchte ich nicht sagen</translation>
  </message>
  <message>
   <source>then it is judged as at 52° north</source>
   <translation>dann wird wie bei 52° Nord geurteilt</translation>
  </message>
  <message>
   <source>I know the latitude</source>
   <translation>Ich kenne die geographische Breite</translation>
  </message>
  <message>
   <source>in degrees; south of the equator it is negative</source>
   <translation>in Grad; südlich des Äquators ist sie negativ</translation>
  </message>
  <message>
   <source>{degrees}° {side}</source>
   <translation>{degrees}° {side}</translation>
  </message>
  <message>
   <source>Sky: of seven days {dull} are overcast, in a row, {partly} have sun and clouds and one is clear (own judgement; light by the sky model of the model note, upright, things around up to {horizon}°).</source>
   <translation>Himmel: Von sieben Tagen sind {dull} bedeckt, hintereinander, {partly} haben Sonne und Wolken, einer ist klar (eigene Einschätzung; Licht nach dem Himmelsmodell der Modellbeschreibung, senkrecht, Umgebung bis {horizon}° hoch).</translation>
  </message>
  <message>
   <source>{level} on a dull day in March, on average ({origin})</source>
   <translation>{level} an einem trüben Märztag, im Mittel ({origin})</translation>
  </message>
  <message>
   <source>north</source>
   <translation>Nord</translation>
  </message>
  <message>
   <source>south</source>
   <translation>Süd</translation>
  </message>
  <message>
   <source>Sky: overcast on every day, by the sky model of the model note; real months bring two to four times as much.</source>
   <translation>Himmel: jeden Tag bedeckt, nach dem Himmelsmodell der Modellbeschreibung; wirkliche Monate bringen das Zwei- bis Vierfache.</translation>
  </message>
  <message>
   <source>{level} at midday in {month} under a dull sky (measured by you)</source>
   <translation>{level} mittags im {month} bei trübem Himmel (von Ihnen gemessen)</translation>
  </message>
  <message>
   <source>Year: judged from January to December at {where}, by the sun of each day; the clock goes by the sun. Hung up, empty, as the darkest month begins.</source>
   <translation>Jahr: von Januar bis Dezember bei {where} beurteilt, nach der Sonne jedes Tages; die Uhr geht nach der Sonne. Leer aufgehängt, wenn der dunkelste Monat beginnt.</translation>
  </message>
  <message>
   <source>Year: judged from January to December at {where}, as nobody said where, by the sun of each day; the clock goes by the sun. Hung up, empty, as the darkest month begins.</source>
   <translation>Jahr: von Januar bis Dezember bei {where} beurteilt, weil der Ort nicht gesagt wurde, nach der Sonne jedes Tages; die Uhr geht nach der Sonne. Leer aufgehängt, wenn der dunkelste Monat beginnt.</translation>
  </message>
  <message>
   <source>Air: {cold} in the coldest month to {warm} in the warmest, and {swing} up and down in each (own judgement).</source>
   <translation>Luft: {cold} im kältesten bis {warm} im wärmsten Monat, dazu in jedem {swing} auf und ab (eigene Einschätzung).</translation>
  </message>
  <message>
   <source>from_h ({start}) to to_h ({end}) must last a second or more</source>
   <translation>von from_h ({start}) bis to_h ({end}) muss es mindestens eine Sekunde sein</translation>
  </message>
  <message>
   <source>Weekdays on which this block is lit.</source>
   <translation>Wochentage, an denen in diesem Block Licht ist.</translation>
  </message>
  <message>
   <source>Hour of the day when the light comes on.</source>
   <translation>Uhrzeit, zu der das Licht angeht.</translation>
  </message>
  <message>
   <source>Hour of the day when the light goes off.</source>
   <translation>Uhrzeit, zu der das Licht ausgeht.</translation>
  </message>
  <message>
   <source>Relative level</source>
   <translation>Relative Stärke</translation>
  </message>
  <message>
   <source>Level of this block as a multiple of the illuminance.</source>
   <translation>Stärke in diesem Block als Vielfaches der Beleuchtungsstärke.</translation>
  </message>
  <message>
   <source>Daylight share</source>
   <translation>Tageslichtanteil</translation>
  </message>
  <message>
   <source>Share of the lux that is daylight behind glass in this block. Empty: as for the place.</source>
   <translation>Anteil der Lux, der in diesem Block Tageslicht hinter Glas ist. Leer: wie für den Ort.</translation>
  </message>
  <message>
   <source>Lit periods</source>
   <translation>Lichtzeiten</translation>
  </message>
  <message>
   <source>Hours with light.</source>
   <translation>Stunden mit Licht.</translation>
  </message>
  <message>
   <source>Dark days</source>
   <translation>Dunkle Tage</translation>
  </message>
  <message>
   <source>Weekdays on which the place stays dark whatever the blocks say.</source>
   <translation>Wochentage, an denen der Ort dunkel bleibt, was immer die Blöcke sagen.</translation>
  </message>
  <message>
   <source>Log file</source>
   <translation>Logdatei</translation>
  </message>
  <message>
   <source>Table with a time and a light, as loggers write it: a shipped log, or a path beside the scenario.</source>
   <translation>Tabelle mit Zeit und Licht, wie Datenlogger sie schreiben: ein mitgeliefertes Protokoll oder ein Pfad neben dem Szenario.</translation>
  </message>
  <message>
   <source>Long gaps</source>
   <translation>Lange Lücken</translation>
  </message>
  <message>
   <source>Hours without a reading count as dark, or hold the last reading.</source>
   <translation>Stunden ohne Messwert zählen als dunkel oder behalten den letzten Wert.</translation>
  </message>
  <message>
   <source>Short gaps, steps</source>
   <translation>Kurze Lücken, Schritte</translation>
  </message>
  <message>
   <source>A gap of up to so many steps of the log holds the reading before it: loggers miss single readings.</source>
   <translation>Eine Lücke bis zu so vielen Schritten des Protokolls behält den Messwert davor: Datenlogger lassen einzelne Messwerte aus.</translation>
  </message>
  <message>
   <source>Offset</source>
   <translation>Nullpunktfehler</translation>
  </message>
  <message>
   <source>What the meter reads in full darkness; it is taken off every reading.</source>
   <translation>Anzeige des Messgeräts in völliger Dunkelheit; sie wird von jedem Messwert abgezogen.</translation>
  </message>
  <message>
   <source>Dates</source>
   <translation>Datumsangaben</translation>
  </message>
  <message>
   <source>Order of day, month and year where the dates of the file leave it open.</source>
   <translation>Reihenfolge von Tag, Monat und Jahr, wo die Datei sie offenlässt.</translation>
  </message>
  <message>
   <source>Decimal mark</source>
   <translation>Dezimalzeichen</translation>
  </message>
  <message>
   <source>Which mark parts decimals where 1,234 could be thousands; else the file decides.</source>
   <translation>Welches Zeichen Dezimalen trennt, wo 1,234 auch Tausender sein könnten; sonst entscheidet die Datei.</translation>
  </message>
  <message>
   <source>Times such as 12:30</source>
   <translation>Zeiten wie 12:30</translation>
  </message>
  <message>
   <source>Hours and minutes, or minutes and seconds, where the file does not tell.</source>
   <translation>Stunden und Minuten oder Minuten und Sekunden, wo die Datei es nicht sagt.</translation>
  </message>
  <message>
   <source>Column</source>
   <translation>Spalte</translation>
  </message>
  <message>
   <source>Heading or number of the column to take where several hold light.</source>
   <translation>Überschrift oder Nummer der Spalte, die gilt, wo mehrere Licht enthalten.</translation>
  </message>
  <message>
   <source>What the place is called.</source>
   <translation>Wie der Ort heißt.</translation>
  </message>
  <message>
   <source>Steady illuminance at that place.</source>
   <translation>Gleichmäßige Beleuchtungsstärke an diesem Ort.</translation>
  </message>
  <message>
   <source>Light source</source>
   <translation>Lichtquelle</translation>
  </message>
  <message>
   <source>What lights that place.</source>
   <translation>Was diesen Ort beleuchtet.</translation>
  </message>
  <message>
   <source>Illuminance at the panel's place while it is lit, read with a lux meter that faces as the panel faces. With a measured log or daylight: the mean while lit; empty means as measured or computed.</source>
   <translation>Beleuchtungsstärke am Ort des Moduls, solange es hell ist, gemessen mit einem Luxmeter, ausgerichtet wie das Modul. Bei einem Lichtprotokoll oder Tageslicht: das Mittel, solange es hell ist; leer heißt wie gemessen oder berechnet.</translation>
  </message>
  <message>
   <source>A lux meter reads what the eye sees; the source decides what a panel makes of it.</source>
   <translation>Ein Luxmeter misst, was das Auge sieht; die Quelle entscheidet, was ein Modul daraus macht.</translation>
  </message>
  <message>
   <source>Share of the lux that is daylight behind glass.</source>
   <translation>Anteil der Lux, der Tageslicht hinter Glas ist.</translation>
  </message>
  <message>
   <source>Lighting times</source>
   <translation>Beleuchtungszeiten</translation>
  </message>
  <message>
   <source>When the place is lit.</source>
   <translation>Wann es am Ort hell ist.</translation>
  </message>
  <message>
   <source>Orientation factor</source>
   <translation>Ausrichtungsfaktor</translation>
  </message>
  <message>
   <source>Light on the panel divided by light on the meter; 1 if the meter faced the same way. A wall often gets a third of what the desk gets.</source>
   <translation>Licht auf dem Modul, geteilt durch Licht am Luxmeter; 1 bei gleicher Ausrichtung. Eine Wand bekommt oft ein Drittel dessen, was der Schreibtisch bekommt.</translation>
  </message>
  <message>
   <source>Cover transmittance</source>
   <translation>Transmissionsgrad der Abdeckung</translation>
  </message>
  <message>
   <source>Share of the light that a window or lens lets through.</source>
   <translation>Anteil des Lichts, den ein Fenster oder eine Linse durchlässt.</translation>
  </message>
  <message>
   <source>Soiling factor</source>
   <translation>Verschmutzungsfaktor</translation>
  </message>
  <message>
   <source>Share of the light left by dust on the panel.</source>
   <translation>Anteil des Lichts, den Staub auf dem Modul übrig lässt.</translation>
  </message>
  <message>
   <source>How the level was found; sets the required margin.</source>
   <translation>Wie das Licht ermittelt wurde; bestimmt den verlangten Sicherheitsfaktor.</translation>
  </message>
  <message>
   <source>Air temperature at panel and store.</source>
   <translation>Lufttemperatur an Modul und Speicher.</translation>
  </message>
  <message>
   <source>Lights of other places, for which charging and rates are told too.</source>
   <translation>Licht anderer Orte, für die Laden und Häufigkeiten ebenfalls angegeben werden.</translation>
  </message>
  <message>
   <source>to_h ({end}) must be later than from_h ({start}); split a block that passes midnight into two</source>
   <translation>to_h ({end}) muss nach from_h ({start}) liegen; einen Block über Mitternacht in zwei teilen</translation>
  </message>
  <message>
   <source>illuminance_lx may be empty only where the pattern is a log or daylight</source>
   <translation>illuminance_lx darf nur leer sein, wo das Muster ein Protokoll oder Tageslicht ist</translation>
  </message>
  <message>
   <source>Key within the section, such as capacitance_F.</source>
   <translation>Schlüssel innerhalb des Abschnitts, etwa capacitance_F.</translation>
  </message>
  <message>
   <source>Measured</source>
   <translation>Gemessen</translation>
  </message>
  <message>
   <source>What was found.</source>
   <translation>Was gefunden wurde.</translation>
  </message>
  <message>
   <source>The true value lies so far from it at most, in 95 of 100 cases.</source>
   <translation>So weit liegt der wahre Wert höchstens davon, in 95 von 100 Fällen.</translation>
  </message>
  <message>
   <source>value must not be 0, as its ± is taken as a share of it</source>
   <translation>value darf nicht 0 sein, denn das ± gilt als Anteil davon</translation>
  </message>
  <message>
   <source>measured.{n}.key: “{key}” is no number of this part</source>
   <translation>measured.{n}.key: „{key}“ ist keine Zahl dieses Bauteils</translation>
  </message>
  <message>
   <source>measured.{n}.value is {value}, but {key} of this part is {found}; they must be the same</source>
   <translation>measured.{n}.value ist {value}, aber {key} dieses Bauteils ist {found}; beide müssen gleich sein</translation>
  </message>
  <message>
   <source>Ratio of available to needed from which the verdict is Runs. Empty: set by how the light is known.</source>
   <translation>Verhältnis von verfügbar zu benötigt, ab dem „Läuft“ gilt. Leer: folgt daraus, wie das Licht ermittelt wurde.</translation>
  </message>
  <message>
   <source>Start within</source>
   <translation>Start binnen</translation>
  </message>
  <message>
   <source>Longest time allowed from empty until the start-up is complete.</source>
   <translation>Längste erlaubte Zeit von leer bis zum Ende des Anlaufs.</translation>
  </message>
  <message>
   <source>Longest closure</source>
   <translation>Längste Schließzeit</translation>
  </message>
  <message>
   <source>Dark period to survive in addition to the usual nights and weekends.</source>
   <translation>Dunkelphase, die zusätzlich zu den üblichen Nächten und Wochenenden zu überstehen ist.</translation>
  </message>
  <message>
   <source>Operations completed</source>
   <translation>Ausgeführte Vorgänge</translation>
  </message>
  <message>
   <source>Share of the wanted operations that must be served.</source>
   <translation>Anteil der gewünschten Vorgänge, der ausgeführt werden muss.</translation>
  </message>
  <message>
   <source>Brightest light</source>
   <translation>Hellstes Licht</translation>
  </message>
  <message>
   <source>Sunlight that the panel may meet; the current that it then drives into a cell is checked.</source>
   <translation>Sonnenlicht, in das das Modul geraten kann; geprüft wird der Strom, mit dem es dann eine Zelle lädt.</translation>
  </message>
  <message>
   <source>Operations per charge</source>
   <translation>Vorgänge je Ladung</translation>
  </message>
  <message>
   <source>Runs that a full store must serve without light. Empty: nothing is asked.</source>
   <translation>Läufe, für die ein voller Speicher ohne Licht reichen muss. Leer: Es wird nichts verlangt.</translation>
  </message>
  <message>
   <source>Operations per hour</source>
   <translation>Vorgänge je Stunde</translation>
  </message>
  <message>
   <source>Runs an hour, while they are due, under steady light. Empty: nothing is asked.</source>
   <translation>Läufe je Stunde, solange sie anstehen, bei gleichmäßigem Licht. Leer: Es wird nichts verlangt.</translation>
  </message>
  <message>
   <source>Light for that rate</source>
   <translation>Licht für diese Häufigkeit</translation>
  </message>
  <message>
   <source>Steady light in which the rate must be reached. Empty: the illuminance of the place.</source>
   <translation>Gleichmäßiges Licht, bei dem die Häufigkeit zu erreichen ist. Leer: die Beleuchtungsstärke des Ortes.</translation>
  </message>
  <message>
   <source>Filled within</source>
   <translation>Gefüllt binnen</translation>
  </message>
  <message>
   <source>Longest time from empty to full, or to the indicator level where there is one, with the device off. Empty: nothing is asked.</source>
   <translation>Längste Zeit von leer bis voll, oder bis zur Schwelle der Anzeige, wo es eine gibt, bei ausgeschaltetem Gerät. Leer: Es wird nichts verlangt.</translation>
  </message>
  <message>
   <source>Light for filling</source>
   <translation>Licht zum Füllen</translation>
  </message>
  <message>
   <source>Steady light in which it must fill in time. Empty: the illuminance of the place.</source>
   <translation>Gleichmäßiges Licht, bei dem rechtzeitig gefüllt sein muss. Leer: die Beleuchtungsstärke des Ortes.</translation>
  </message>
  <message>
   <source>Days from full</source>
   <translation>Tage ab voll</translation>
  </message>
  <message>
   <source>Time that a full store must carry the device without light. Empty: nothing is asked.</source>
   <translation>Zeit, die ein voller Speicher das Gerät ohne Licht tragen muss. Leer: Es wird nichts verlangt.</translation>
  </message>
  <message>
   <source>Years of the store</source>
   <translation>Jahre des Speichers</translation>
  </message>
  <message>
   <source>Until the store counts as worn out. Empty: nothing is asked.</source>
   <translation>Bis der Speicher als verbraucht gilt. Leer: Es wird nichts verlangt.</translation>
  </message>
  <message>
   <source>Title</source>
   <translation>Titel</translation>
  </message>
  <message>
   <source>Name of the scenario.</source>
   <translation>Name des Szenarios.</translation>
  </message>
  <message>
   <source>Place</source>
   <translation>Ort</translation>
  </message>
  <message>
   <source>Where the device hangs.</source>
   <translation>Wo das Gerät hängt.</translation>
  </message>
  <message>
   <source>Names of the operations, in their order.</source>
   <translation>Namen der Vorgänge, in ihrer Reihenfolge.</translation>
  </message>
  <message>
   <source>Notes</source>
   <translation>Notizen</translation>
  </message>
  <message>
   <source>Anything the next reader should know.</source>
   <translation>Alles, was der nächste Leser wissen sollte.</translation>
  </message>
  <message>
   <source>Light</source>
   <translation>Licht</translation>
  </message>
  <message>
   <source>Light at the place.</source>
   <translation>Licht am Ort.</translation>
  </message>
  <message>
   <source>Panels</source>
   <translation>Solarmodule</translation>
  </message>
  <message>
   <source>The panel array.</source>
   <translation>Die Anordnung der Module.</translation>
  </message>
  <message>
   <source>Charger</source>
   <translation>Laderegler</translation>
  </message>
  <message>
   <source>From panel to store.</source>
   <translation>Vom Modul zum Speicher.</translation>
  </message>
  <message>
   <source>What holds the energy.</source>
   <translation>Was die Energie hält.</translation>
  </message>
  <message>
   <source>Load</source>
   <translation>Verbraucher</translation>
  </message>
  <message>
   <source>The device.</source>
   <translation>Das Gerät.</translation>
  </message>
  <message>
   <source>Margins</source>
   <translation>Anforderungen</translation>
  </message>
  <message>
   <source>What must be reached.</source>
   <translation>Was erreicht werden muss.</translation>
  </message>
  <message>
   <source>In German</source>
   <translation>Auf Deutsch</translation>
  </message>
  <message>
   <source>What it is called in German.</source>
   <translation>Wie es auf Deutsch heißt.</translation>
  </message>
  <message>
   <source>Title of the part that was taken.</source>
   <translation>Name des übernommenen Bauteils.</translation>
  </message>
  <message>
   <source>Source of its values</source>
   <translation>Quelle seiner Werte</translation>
  </message>
  <message>
   <source>Where the values of the part come from.</source>
   <translation>Woher die Werte des Bauteils stammen.</translation>
  </message>
  <message>
   <source>Fingerprint</source>
   <translation>Fingerabdruck</translation>
  </message>
  <message>
   <source>Of the values as they were taken; tells whether they were changed.</source>
   <translation>Der Werte, wie sie übernommen wurden; zeigt, ob sie geändert wurden.</translation>
  </message>
  <message>
   <source>Price of the part</source>
   <translation>Preis des Bauteils</translation>
  </message>
  <message>
   <source>Of one part.</source>
   <translation>Eines Bauteils.</translation>
  </message>
  <message>
   <source>Currency of that price</source>
   <translation>Währung dieses Preises</translation>
  </message>
  <message>
   <source>Such as EUR.</source>
   <translation>Etwa EUR.</translation>
  </message>
  <message>
   <source>Measured values</source>
   <translation>Gemessene Werte</translation>
  </message>
  <message>
   <source>Values that were measured of this very part, each with its ±.</source>
   <translation>An genau diesem Bauteil gemessene Werte, jeder mit seinem ±.</translation>
  </message>
  <message>
   <source>The part of one's own that was taken; empty where none was.</source>
   <translation>Das übernommene eigene Bauteil; leer, wo keines übernommen wurde.</translation>
  </message>
  <message>
   <source>What the part is called.</source>
   <translation>Wie das Bauteil heißt.</translation>
  </message>
  <message>
   <source>Where its values come from, such as a data sheet.</source>
   <translation>Woher seine Werte stammen, etwa aus einem Datenblatt.</translation>
  </message>
  <message>
   <source>Of its values, such as 2026-03-01.</source>
   <translation>Der Werte, etwa 2026-03-01.</translation>
  </message>
  <message>
   <source>Price</source>
   <translation>Preis</translation>
  </message>
  <message>
   <source>Currency</source>
   <translation>Währung</translation>
  </message>
  <message>
   <source>Of the price, such as EUR.</source>
   <translation>Des Preises, etwa EUR.</translation>
  </message>
  <message>
   <source>Volume</source>
   <translation>Volumen</translation>
  </message>
  <message>
   <source>Mass</source>
   <translation>Masse</translation>
  </message>
  <message>
   <source>Height</source>
   <translation>Höhe</translation>
  </message>
  <message>
   <source>Of one part, mounted.</source>
   <translation>Eines Bauteils, eingebaut.</translation>
  </message>
  <message>
   <source>Area</source>
   <translation>Fläche</translation>
  </message>
  <message>
   <source>Outside, frame included.</source>
   <translation>Außenmaß, mit Rahmen.</translation>
  </message>
  <message>
   <source>One panel.</source>
   <translation>Ein Modul.</translation>
  </message>
  <message>
   <source>title must not be empty</source>
   <translation>title darf nicht leer sein</translation>
  </message>
  <message>
   <source>panels.count and panels.in_series must be 1: the part is one panel</source>
   <translation>panels.count und panels.in_series müssen 1 sein: Das Bauteil ist ein einzelnes Modul</translation>
  </message>
  <message>
   <source>Illuminance of this data-sheet line.</source>
   <translation>Beleuchtungsstärke dieser Datenblattzeile.</translation>
  </message>
  <message>
   <source>Lamp that the data sheet used.</source>
   <translation>Lampe, die das Datenblatt verwendet.</translation>
  </message>
  <message>
   <source>Short-circuit current</source>
   <translation>Kurzschlussstrom</translation>
  </message>
  <message>
   <source>Current at zero volts.</source>
   <translation>Strom bei null Volt.</translation>
  </message>
  <message>
   <source>Open-circuit voltage</source>
   <translation>Leerlaufspannung</translation>
  </message>
  <message>
   <source>Voltage at zero current. Empty: as the technology lets expect.</source>
   <translation>Spannung ohne Strom. Leer: wie die Technologie erwarten lässt.</translation>
  </message>
  <message>
   <source>Current at maximum power</source>
   <translation>Strom im MPP</translation>
  </message>
  <message>
   <source>Current where V·I is largest. Empty, with its voltage: as the technology lets expect.</source>
   <translation>Strom, bei dem U·I am größten ist. Leer, zusammen mit der Spannung: wie die Technologie erwarten lässt.</translation>
  </message>
  <message>
   <source>Voltage at maximum power</source>
   <translation>Spannung im MPP</translation>
  </message>
  <message>
   <source>Voltage where V·I is largest. Empty, with its current: as the technology lets expect.</source>
   <translation>Spannung, bei der U·I am größten ist. Leer, zusammen mit dem Strom: wie die Technologie erwarten lässt.</translation>
  </message>
  <message>
   <source>Measured voltages</source>
   <translation>Gemessene Spannungen</translation>
  </message>
  <message>
   <source>Of the measured curve that this line was taken from, rising.</source>
   <translation>Der gemessenen Kennlinie, aus der diese Zeile stammt, steigend.</translation>
  </message>
  <message>
   <source>Measured currents</source>
   <translation>Gemessene Ströme</translation>
  </message>
  <message>
   <source>At those voltages; the fit is held against them.</source>
   <translation>Bei diesen Spannungen; daran wird die Anpassung gehalten.</translation>
  </message>
  <message>
   <source>Panels in parallel.</source>
   <translation>Parallel geschaltete Module.</translation>
  </message>
  <message>
   <source>Panels in series</source>
   <translation>Module in Reihe</translation>
  </message>
  <message>
   <source>Panels in one string.</source>
   <translation>Module in einem Strang.</translation>
  </message>
  <message>
   <source>Cell technology</source>
   <translation>Zelltechnologie</translation>
  </message>
  <message>
   <source>Decides the response to each light source.</source>
   <translation>Bestimmt, wie das Modul auf jede Lichtquelle anspricht.</translation>
  </message>
  <message>
   <source>Active area per panel</source>
   <translation>Aktive Fläche je Modul</translation>
  </message>
  <message>
   <source>Light-sensitive area of one whole panel.</source>
   <translation>Lichtempfindliche Fläche eines ganzen Moduls.</translation>
  </message>
  <message>
   <source>Cells in one panel; they share its area equally.</source>
   <translation>Zellen in einem Modul; sie teilen sich seine Fläche gleichmäßig.</translation>
  </message>
  <message>
   <source>Data-sheet points</source>
   <translation>Datenblattpunkte</translation>
  </message>
  <message>
   <source>Up to eight; when given they set the I-V curve.</source>
   <translation>Bis zu acht; mit ihnen folgt die Kennlinie dem Datenblatt.</translation>
  </message>
  <message>
   <source>Diode saturation current</source>
   <translation>Diodensättigungsstrom</translation>
  </message>
  <message>
   <source>Of the blocking diode; it also leaks this much back at night.</source>
   <translation>Der Sperrdiode; so viel fließt auch nachts durch sie zurück.</translation>
  </message>
  <message>
   <source>Diode ideality</source>
   <translation>Diodenidealität</translation>
  </message>
  <message>
   <source>Of the blocking diode; 1.05 to 1.3 for a Schottky diode.</source>
   <translation>Der Sperrdiode; 1,05 bis 1,3 bei Schottky-Dioden.</translation>
  </message>
  <message>
   <source>Full voltage</source>
   <translation>Ladeschlussspannung</translation>
  </message>
  <message>
   <source>Store voltage at which charging stops.</source>
   <translation>Speicherspannung, bei der das Laden endet.</translation>
  </message>
  <message>
   <source>Recharge hysteresis</source>
   <translation>Wiederlade-Hysterese</translation>
  </message>
  <message>
   <source>Charging resumes this far below full.</source>
   <translation>So weit unter voll beginnt das Laden wieder.</translation>
  </message>
  <message>
   <source>Drawn from the store at all times by the charger.</source>
   <translation>Vom Laderegler ständig aus dem Speicher entnommen.</translation>
  </message>
  <message>
   <source>Input power</source>
   <translation>Eingangsleistung</translation>
  </message>
  <message>
   <source>Power that the panel gives in this row.</source>
   <translation>Leistung, die das Modul in dieser Zeile abgibt.</translation>
  </message>
  <message>
   <source>Share of it that reaches the store.</source>
   <translation>Anteil davon, der den Speicher erreicht.</translation>
  </message>
  <message>
   <source>At store voltage</source>
   <translation>Bei Speicherspannung</translation>
  </message>
  <message>
   <source>Where the sheet tells voltages apart; then in every row.</source>
   <translation>Wo das Blatt Spannungen unterscheidet; dann in jeder Zeile.</translation>
  </message>
  <message>
   <source>MPPT method</source>
   <translation>MPPT-Verfahren</translation>
  </message>
  <message>
   <source>A fixed fraction of open-circuit voltage, or maximum power.</source>
   <translation>Ein fester Bruchteil der Leerlaufspannung oder die größte Leistung.</translation>
  </message>
  <message>
   <source>Fraction of open-circuit voltage</source>
   <translation>Anteil der Leerlaufspannung</translation>
  </message>
  <message>
   <source>Panel voltage over its V_oc.</source>
   <translation>Modulspannung durch Leerlaufspannung.</translation>
  </message>
  <message>
   <source>Share of the panel power left after proportional loss.</source>
   <translation>Anteil der Modulleistung, der nach proportionalem Verlust bleibt.</translation>
  </message>
  <message>
   <source>Fixed loss</source>
   <translation>Festverlust</translation>
  </message>
  <message>
   <source>Power lost whenever the converter runs.</source>
   <translation>Verlustleistung, solange der Wandler läuft.</translation>
  </message>
  <message>
   <source>Loss resistance</source>
   <translation>Verlustwiderstand</translation>
  </message>
  <message>
   <source>Resistance in the output path of the converter.</source>
   <translation>Widerstand im Ausgangspfad des Wandlers.</translation>
  </message>
  <message>
   <source>Output limit</source>
   <translation>Ausgangsgrenze</translation>
  </message>
  <message>
   <source>Largest charging current into the store; what the load may draw is another limit.</source>
   <translation>Größter Ladestrom in den Speicher; was die Last ziehen darf, ist eine andere Grenze.</translation>
  </message>
  <message>
   <source>Minimum panel voltage</source>
   <translation>Mindest-Modulspannung</translation>
  </message>
  <message>
   <source>Below this working voltage it stops.</source>
   <translation>Unter dieser Arbeitsspannung hält er an.</translation>
  </message>
  <message>
   <source>Minimum panel power</source>
   <translation>Kleinste Modulleistung</translation>
  </message>
  <message>
   <source>Below this panel power it stops.</source>
   <translation>Unter dieser Modulleistung hält er an.</translation>
  </message>
  <message>
   <source>Cold start below</source>
   <translation>Kaltstart unter</translation>
  </message>
  <message>
   <source>Below this store voltage only the cold start works.</source>
   <translation>Unter dieser Speicherspannung arbeitet nur der Kaltstart.</translation>
  </message>
  <message>
   <source>Cold-start efficiency</source>
   <translation>Kaltstart-Wirkungsgrad</translation>
  </message>
  <message>
   <source>Efficiency while the store is that low.</source>
   <translation>Wirkungsgrad, solange der Speicher so tief steht.</translation>
  </message>
  <message>
   <source>Cold-start panel voltage</source>
   <translation>Kaltstart-Modulspannung</translation>
  </message>
  <message>
   <source>Open-circuit voltage that a cold start needs.</source>
   <translation>Leerlaufspannung, die ein Kaltstart braucht.</translation>
  </message>
  <message>
   <source>Cold-start panel power</source>
   <translation>Kaltstart-Modulleistung</translation>
  </message>
  <message>
   <source>Panel power that a cold start needs.</source>
   <translation>Modulleistung, die ein Kaltstart braucht.</translation>
  </message>
  <message>
   <source>Efficiency by input power</source>
   <translation>Wirkungsgrad über der Eingangsleistung</translation>
  </message>
  <message>
   <source>Rows of the sheet; they stand for efficiency, fixed loss and loss resistance.</source>
   <translation>Zeilen des Datenblatts; sie ersetzen Wirkungsgrad, festen Verlust und Verlustwiderstand.</translation>
  </message>
  <message>
   <source>Table times</source>
   <translation>Tabelle mal</translation>
  </message>
  <message>
   <source>Factor on every efficiency of the table, for tolerances.</source>
   <translation>Faktor auf jeden Wirkungsgrad der Tabelle, für Toleranzen.</translation>
  </message>
  <message>
   <source>store_V must stand in every row or in none</source>
   <translation>store_V muss in jeder Zeile stehen oder in keiner</translation>
  </message>
  <message>
   <source>at most {most} store voltages are taken, found {n}</source>
   <translation>höchstens {most} Speicherspannungen werden angenommen, gefunden: {n}</translation>
  </message>
  <message>
   <source>at most {most} rows are taken for one store voltage, found {n}</source>
   <translation>höchstens {most} Zeilen je Speicherspannung werden angenommen, gefunden: {n}</translation>
  </message>
  <message>
   <source>measured_V and measured_A hold {volts} and {amps} values; they must be as many, and at most {most}</source>
   <translation>measured_V und measured_A enthalten {volts} und {amps} Werte; es müssen gleich viele sein, höchstens {most}</translation>
  </message>
  <message>
   <source>data_sheet takes 1 to {most} points, found {n}</source>
   <translation>data_sheet hat 1 bis {most} Punkte, gefunden: {n}</translation>
  </message>
  <message>
   <source>data_sheet, {fault}</source>
   <translation>data_sheet, {fault}</translation>
  </message>
  <message>
   <source>efficiency_table, {fault}</source>
   <translation>efficiency_table, {fault}</translation>
  </message>
  <message>
   <source>{power} stands in two rows</source>
   <translation>{power} steht in zwei Zeilen</translation>
  </message>
  <message>
   <source>{more} into the converter bring less out of it than {less}</source>
   <translation>{more} am Eingang bringen weniger heraus als {less}</translation>
  </message>
  <message>
   <source>The reading of {lux} on {date} at {time} sets the daylight: {factor} times the {computed} that were computed for that moment.</source>
   <translation>Die Ablesung von {lux} am {date} um {time} legt das Tageslicht fest: das {factor}-Fache der {computed}, die für diesen Augenblick berechnet wurden.</translation>
  </message>
  <message>
   <source>Such skies differ: another reading under one could have set {low} to {high} times as much.</source>
   <translation>Solche Himmel sind verschieden: Eine andere Ablesung hätte das {low}- bis {high}-Fache ergeben können.</translation>
  </message>
  <message>
   <source>{clear} clear, {partly} partly cloudy and {overcast} overcast days; the overcast days of a month come first, in one row.</source>
   <translation>{clear} klare, {partly} wechselnd bewölkte und {overcast} bedeckte Tage; die bedeckten Tage eines Monats kommen zuerst, am Stück.</translation>
  </message>
  <message>
   <source>Every day counts as overcast, which is cautious: in three measured years the light of a month was {low} to {high} times as much.</source>
   <translation>Jeder Tag gilt als bedeckt, das ist vorsichtig: In drei gemessenen Jahren war das Licht eines Monats das {low}- bis {high}-Fache.</translation>
  </message>
  <message>
   <source>On {date} the sun stands highest at {time}, {height} above level.</source>
   <translation>Am {date} steht die Sonne um {time} am höchsten, {height} über der Waagrechten.</translation>
  </message>
  <message>
   <source>In three measured years the light of a month was {low} to {high} times what its skies give.</source>
   <translation>In drei gemessenen Jahren war das Licht eines Monats das {low}- bis {high}-Fache dessen, was sein Himmel ergibt.</translation>
  </message>
  <message>
   <source>Out of doors, too, it is dark on holidays with closed blinds; say open where none hang before the panel.</source>
   <translation>Auch im Freien ist es an Feiertagen mit „Jalousien zu“ dunkel; wo vor dem Modul keine hängen, gehört „Jalousien offen“ hin.</translation>
  </message>
  <message>
   <source>light.pattern names a weather file, but none was read</source>
   <translation>light.pattern nennt eine Wetterdatei, aber es wurde keine gelesen</translation>
  </message>
  <message>
   <source>light.pattern.reading: on {date} at {time} no daylight reaches the panel, so a reading then says nothing about it; check date, time, place and time zone</source>
   <translation>light.pattern.reading: Am {date} um {time} erreicht kein Tageslicht das Modul, eine Ablesung sagt dann nichts darüber; Datum, Uhrzeit, Ort und Zeitzone prüfen</translation>
  </message>
  <message>
   <source>That is far from 1: check the reading, the moment, the sky and the place.</source>
   <translation>Das liegt weit von 1: Ablesung, Augenblick, Himmel und Ort prüfen.</translation>
  </message>
  <message>
   <source>Touch to begin</source>
   <translation>Zum Beginnen berühren</translation>
  </message>
  <message>
   <source>Pause</source>
   <translation>Pause</translation>
  </message>
  <message>
   <source>Holds the change from one scenario to the next</source>
   <translation>Hält den Wechsel der Szenarien an</translation>
  </message>
  <message>
   <source>Go on</source>
   <translation>Weiter</translation>
  </message>
  <message>
   <source>Earlier scenarios</source>
   <translation>Frühere Szenarien</translation>
  </message>
  <message>
   <source>More scenarios</source>
   <translation>Weitere Szenarien</translation>
  </message>
  <message>
   <source>Challenge</source>
   <translation>Aufgabe</translation>
  </message>
  <message>
   <source>Take it home</source>
   <translation>Mitnehmen</translation>
  </message>
  <message>
   <source>Start again</source>
   <translation>Neu beginnen</translation>
  </message>
  <message>
   <source>Language</source>
   <translation>Sprache</translation>
  </message>
  <message>
   <source>It lives on the light it gets!</source>
   <translation>Es lebt von dem Licht, das es bekommt!</translation>
  </message>
  <message>
   <source>Make it last twenty minutes in the dark</source>
   <translation>Lass es zwanzig Minuten im Dunkeln durchhalten</translation>
  </message>
  <message>
   <source>It lasts twenty minutes in the dark!</source>
   <translation>Es hält zwanzig Minuten im Dunkeln durch!</translation>
  </message>
  <message>
   <source>Make it last an hour in the dark</source>
   <translation>Lass es eine Stunde im Dunkeln durchhalten</translation>
  </message>
  <message>
   <source>It lasts an hour in the dark!</source>
   <translation>Es hält eine Stunde im Dunkeln durch!</translation>
  </message>
  <message>
   <source>Make it last the night</source>
   <translation>Lass es die Nacht durchhalten</translation>
  </message>
  <message>
   <source>It lasts the night!</source>
   <translation>Es hält die Nacht durch!</translation>
  </message>
  <message>
   <source>Make it last the weekend</source>
   <translation>Lass es das Wochenende durchhalten</translation>
  </message>
  <message>
   <source>It lasts the weekend!</source>
   <translation>Es hält das Wochenende durch!</translation>
  </message>
  <message>
   <source>Make it last a long weekend</source>
   <translation>Lass es ein langes Wochenende durchhalten</translation>
  </message>
  <message>
   <source>It lasts a long weekend!</source>
   <translation>Es hält ein langes Wochenende durch!</translation>
  </message>
  <message>
   <source>Make it last a week of holidays</source>
   <translation>Lass es eine Ferienwoche durchhalten</translation>
  </message>
  <message>
   <source>It lasts a week of holidays!</source>
   <translation>Es hält eine Ferienwoche durch!</translation>
  </message>
  <message>
   <source>Make it last a month in the dark</source>
   <translation>Lass es einen Monat im Dunkeln durchhalten</translation>
  </message>
  <message>
   <source>It lasts a month in the dark!</source>
   <translation>Es hält einen Monat im Dunkeln durch!</translation>
  </message>
  <message>
   <source>Make it last three months in the dark</source>
   <translation>Lass es drei Monate im Dunkeln durchhalten</translation>
  </message>
  <message>
   <source>It lasts three months in the dark!</source>
   <translation>Es hält drei Monate im Dunkeln durch!</translation>
  </message>
  <message>
   <source>visits: {visits}, designs: {designs}, challenges won: {won}, taken home: {home}</source>
   <translation>Besuche: {visits}, Entwürfe: {designs}, gelöste Aufgaben: {won}, mitgenommen: {home}</translation>
  </message>
  <message>
   <source>counts</source>
   <translation>Zählung</translation>
  </message>
  <message>
   <source>No scenario is left to show; tick another one.</source>
   <translation>Kein Szenario ist übrig; ein anderes ankreuzen.</translation>
  </message>
  <message>
   <source>The last set-up could not be used. {error}</source>
   <translation>Die letzte Einrichtung war nicht verwendbar. {error}</translation>
  </message>
  <message>
   <source>opening of a visitor's scenario</source>
   <translation>Öffnen eines Besucherszenarios</translation>
  </message>
  <message>
   <source>Left out: {error}</source>
   <translation>Ausgelassen: {error}</translation>
  </message>
  <message>
   <source>“{title}” cannot be brought to Runs with what visitors may move.</source>
   <translation>„{title}“ lässt sich mit dem, was Besucher bewegen dürfen, nicht zu Läuft bringen.</translation>
  </message>
  <message>
   <source>Not judged</source>
   <translation>Nicht beurteilt</translation>
  </message>
  <message>
   <source>Verdict: {word}</source>
   <translation>Urteil: {word}</translation>
  </message>
  <message>
   <source>The sheet is on its way to the printer.</source>
   <translation>Das Blatt ist unterwegs zum Drucker.</translation>
  </message>
  <message>
   <source>Saved as {name}. Wait a moment before you pull the stick out.</source>
   <translation>Gesichert als {name}. Einen Augenblick warten, bevor der Stick gezogen wird.</translation>
  </message>
  <message>
   <source>An estimate for discussion, not a design approval.</source>
   <translation>Eine Schätzung für das Gespräch, keine Freigabe eines Entwurfs.</translation>
  </message>
  <message>
   <source>No printer is set up. Please ask.</source>
   <translation>Kein Drucker eingerichtet. Bitte fragen.</translation>
  </message>
  <message>
   <source>The printer does not answer. Please ask.</source>
   <translation>Der Drucker antwortet nicht. Bitte fragen.</translation>
  </message>
  <message>
   <source>Plug a USB stick in, and touch again.</source>
   <translation>Einen USB-Stick einstecken und noch einmal berühren.</translation>
  </message>
  <message>
   <source>Printing is not available here.</source>
   <translation>Drucken geht hier nicht.</translation>
  </message>
  <message>
   <source>The stick cannot be written; is it full or locked?</source>
   <translation>Der Stick lässt sich nicht beschreiben; ist er voll oder gesperrt?</translation>
  </message>
  <message>
   <source>Code that holds: {content}</source>
   <translation>Code mit dem Inhalt: {content}</translation>
  </message>
  <message>
   <source>Print a sheet</source>
   <translation>Blatt drucken</translation>
  </message>
  <message>
   <source>Save on a USB stick</source>
   <translation>Auf USB-Stick sichern</translation>
  </message>
  <message>
   <source>Point the camera of a phone at the code: it opens a page with this design.</source>
   <translation>Die Kamera eines Telefons auf den Code richten: Sie öffnet eine Seite mit diesem Entwurf.</translation>
  </message>
  <message>
   <source>Point the camera of a phone at the code: it shows this text, without a network.</source>
   <translation>Die Kamera eines Telefons auf den Code richten: Sie zeigt diesen Text, auch ohne Netz.</translation>
  </message>
  <message>
   <source>Take the last digit away</source>
   <translation>Letzte Ziffer wegnehmen</translation>
  </message>
  <message>
   <source>Close</source>
   <translation>Schließen</translation>
  </message>
  <message>
   <source>Staff code</source>
   <translation>Code des Personals</translation>
  </message>
  <message>
   <source>That is not the code.</source>
   <translation>Das ist nicht der Code.</translation>
  </message>
  <message>
   <source>To leave: hold Esc for 3 s, or hold both upper corners for 3 s, together or one after the other. With a staff code: hold one upper corner for 3 s, let go and type it. A ring shows the progress while you hold.</source>
   <translation>Zum Verlassen: 3 s lang Esc halten, oder beide oberen Ecken je 3 s lang, zusammen oder nacheinander. Mit einem Code des Personals: eine obere Ecke 3 s lang halten, loslassen und ihn tippen. Ein Ring zeigt dabei den Fortschritt.</translation>
  </message>
  <message>
   <source>Capitals of the word are {height} mm high, seen at {distance} m under {word} arcmin; the number {number}, the smallest names {names} arcmin</source>
   <translation>Großbuchstaben des Worts sind {height} mm hoch, aus {distance} m Abstand {word} Bogenminuten; die Zahl {number}, die kleinsten Namen {names} Bogenminuten</translation>
  </message>
  <message>
   <source>This page reads at {distance} m. {facts}.</source>
   <translation>Diese Seite ist aus {distance} m Abstand lesbar. {facts}.</translation>
  </message>
  <message>
   <source>This screen is too small for {distance} m: {facts}; {good} and {least} are needed. It can be read from up to {reach} m; use a larger screen or let visitors come closer.</source>
   <translation>Dieser Bildschirm ist für {distance} m zu klein: {facts}; nötig sind {good} und {least}. Lesbar ist er bis {reach} m; einen größeren verwenden oder Besucher näher kommen lassen.</translation>
  </message>
  <message>
   <source>The real device has left its forecast: {now} instead of {due}.</source>
   <translation>Das wirkliche Gerät hat seine Vorhersage verlassen: {now} statt {due}.</translation>
  </message>
  <message>
   <source>The real device agrees with its forecast: {now}, expected {due}.</source>
   <translation>Das wirkliche Gerät folgt seiner Vorhersage: {now}, erwartet {due}.</translation>
  </message>
  <message>
   <source>The meter is silent; it is sought again.</source>
   <translation>Das Messgerät schweigt; es wird wieder gesucht.</translation>
  </message>
  <message>
   <source>Voltage of the real device and its forecast, V</source>
   <translation>Spannung des wirklichen Geräts und ihre Vorhersage, V</translation>
  </message>
  <message>
   <source>meter</source>
   <translation>Messgerät</translation>
  </message>
  <message>
   <source>forecast</source>
   <translation>Vorhersage</translation>
  </message>
  <message>
   <source>Hazard: {title}. {sentence}</source>
   <translation>Gefahr: {title}. {sentence}</translation>
  </message>
  <message>
   <source>Nothing that can be moved here is enough.</source>
   <translation>Nichts, was sich hier bewegen lässt, reicht.</translation>
  </message>
  <message>
   <source>Take care. {line}</source>
   <translation>Vorsicht. {line}</translation>
  </message>
  <message>
   <source>{sentence} Touch “Start again”.</source>
   <translation>{sentence} „Neu beginnen“ berühren.</translation>
  </message>
  <message>
   <source>list of parked scenarios</source>
   <translation>Liste abgelegter Szenarien</translation>
  </message>
  <message>
   <source>{name} cannot be read: {reason}. It was renamed to {aside}.</source>
   <translation>{name} ist nicht lesbar: {reason}. Umbenannt in {aside}.</translation>
  </message>
  <message>
   <source>Visitors' scenarios could not be kept: {error}</source>
   <translation>Szenarien der Besucher konnten nicht behalten werden: {error}</translation>
  </message>
  <message>
   <source>it holds no list</source>
   <translation>sie enthält keine Liste</translation>
  </message>
  <message>
   <source>Visitor scenario {place}</source>
   <translation>Besucherszenario {place}</translation>
  </message>
  <message>
   <source>{name} cannot be read: {reason}.</source>
   <translation>{name} ist nicht lesbar: {reason}.</translation>
  </message>
  <message>
   <source>Visitor scenario {place} is not complete and was left out.</source>
   <translation>Besucherszenario {place} ist unvollständig und wurde ausgelassen.</translation>
  </message>
  <message>
   <source>{number} day</source>
   <translation>{number} Tag</translation>
  </message>
  <message>
   <source>{number} days</source>
   <translation>{number} Tage</translation>
  </message>
  <message>
   <source>{number} hour</source>
   <translation>{number} Stunde</translation>
  </message>
  <message>
   <source>{number} hours</source>
   <translation>{number} Stunden</translation>
  </message>
  <message>
   <source>Jan</source>
   <translation>Jan.</translation>
  </message>
  <message>
   <source>Feb</source>
   <translation>Feb.</translation>
  </message>
  <message>
   <source>Mar</source>
   <translation>März</translation>
  </message>
  <message>
   <source>Apr</source>
   <translation>Apr.</translation>
  </message>
  <message>
   <source>Jun</source>
   <translation>Juni</translation>
  </message>
  <message>
   <source>Jul</source>
   <translation>Juli</translation>
  </message>
  <message>
   <source>Aug</source>
   <translation>Aug.</translation>
  </message>
  <message>
   <source>Sep</source>
   <translation>Sept.</translation>
  </message>
  <message>
   <source>Oct</source>
   <translation>Okt.</translation>
  </message>
  <message>
   <source>Nov</source>
   <translation>Nov.</translation>
  </message>
  <message>
   <source>Dec</source>
   <translation>Dez.</translation>
  </message>
  <message>
   <source>{invitation}: {time} without light</source>
   <translation>{invitation}: {time} ohne Licht</translation>
  </message>
  <message>
   <source>of {limit}</source>
   <translation>von {limit}</translation>
  </message>
  <message>
   <source>It does {share} of its tasks.</source>
   <translation>Es erledigt {share} seiner Aufgaben.</translation>
  </message>
  <message>
   <source>{line} Also: {names}.</source>
   <translation>{line} Außerdem: {names}.</translation>
  </message>
  <message>
   <source>This page restarts in {seconds} seconds. Your settings are kept.</source>
   <translation>Diese Seite startet in {seconds} Sekunden neu. Ihre Einstellungen bleiben erhalten.</translation>
  </message>
  <message>
   <source>{day} {month} {clock}</source>
   <translation>{day}. {month} {clock}</translation>
  </message>
  <message>
   <source>Light</source>
   <comment>what visitors move</comment>
   <translation>Licht</translation>
  </message>
  <message>
   <source>The curve is not the trouble: a part gets {seen} and bears {rated}.</source>
   <translation>Nicht die Kurve ist das Problem: Ein Bauteil bekommt {seen} und verträgt {rated}.</translation>
  </message>
  <message>
   <source>The curve hides the pulse: for a moment it drops to {volts}, {need} are needed.</source>
   <translation>Die Kurve verbirgt den Puls: Für einen Augenblick fällt sie auf {volts}, nötig sind {need}.</translation>
  </message>
  <message>
   <source>Too slow: it takes {time} to start, {allowed} are allowed.</source>
   <translation>Zu langsam: Es braucht {time} zum Anlaufen, erlaubt sind {allowed}.</translation>
  </message>
  <message>
   <source>The light never brings its store anything.</source>
   <translation>Das Licht bringt dem Speicher nie etwas.</translation>
  </message>
  <message>
   <source>Left in the dark it lasts {time}; {needed} are asked for.</source>
   <translation>Im Dunkeln hält es {time} durch; verlangt sind {needed}.</translation>
  </message>
  <message>
   <source>It spends more than the light brings, so a full store only puts it off.</source>
   <translation>Es gibt mehr aus, als das Licht bringt; ein voller Speicher schiebt das nur auf.</translation>
  </message>
  <message>
   <source>{line} Also: {names} and more.</source>
   <translation>{line} Außerdem: {names} und weitere.</translation>
  </message>
  <message>
   <source>This page starts again in 1 second. What you made is kept.</source>
   <translation>Diese Seite beginnt in 1 Sekunde neu. Das Eingestellte bleibt erhalten.</translation>
  </message>
  <message>
   <source>It never gets up to {volts}, where it would start.</source>
   <translation>Es kommt nie auf {volts}, wo es anlaufen würde.</translation>
  </message>
  <message>
   <source>until it starts</source>
   <translation>bis zum Start</translation>
  </message>
  <message>
   <source>in the dark</source>
   <translation>im Dunkeln</translation>
  </message>
  <message>
   <source>the energy it needs</source>
   <translation>des Energiebedarfs</translation>
  </message>
  <message>
   <source>in the pulse</source>
   <translation>im Puls</translation>
  </message>
  <message>
   <source>of its work completed</source>
   <translation>der Vorgänge ausgeführt</translation>
  </message>
  <message>
   <source>never</source>
   <comment>before: starts</comment>
   <translation>nie</translation>
  </message>
  <message>
   <source>starts</source>
   <comment>after: never</comment>
   <translation>gestartet</translation>
  </message>
  <message>
   <source>to its reserve</source>
   <translation>im Dunkeln</translation>
  </message>
  <message>
   <source>plenty</source>
   <translation>reichlich</translation>
  </message>
  <message>
   <source>of energy</source>
   <translation>Energie</translation>
  </message>
  <message>
   <source>Scenarios on the stand, in order</source>
   <translation>Szenarien des Messestands, der Reihe nach</translation>
  </message>
  <message>
   <source>S&amp;cenarios, ticked ones in this order; the first comes back after a visit</source>
   <translation>S&amp;zenarien, angekreuzte in dieser Folge; nach einem Besuch kommt das erste wieder</translation>
  </message>
  <message>
   <source>Up</source>
   <translation>Auf</translation>
  </message>
  <message>
   <source>Show the chosen scenario earlier</source>
   <translation>Gewähltes Szenario früher zeigen</translation>
  </message>
  <message>
   <source>Down</source>
   <translation>Ab</translation>
  </message>
  <message>
   <source>Show the chosen scenario later</source>
   <translation>Gewähltes Szenario später zeigen</translation>
  </message>
  <message>
   <source>Add a file…</source>
   <translation>Datei hinzufügen…</translation>
  </message>
  <message>
   <source>Add a scenario file of your own</source>
   <translation>Eigene Szenariodatei hinzufügen</translation>
  </message>
  <message>
   <source>Remove</source>
   <translation>Entfernen</translation>
  </message>
  <message>
   <source>Take the chosen file off the list</source>
   <translation>Gewählte Datei aus der Liste nehmen</translation>
  </message>
  <message>
   <source>Comes with the program</source>
   <translation>Liegt dem Programm bei</translation>
  </message>
  <message>
   <source>Before leaving it unattended: switch off the screen saver and system notifications, and give visitors no keyboard that can switch programs.</source>
   <translation>Vor dem unbeaufsichtigten Betrieb: Bildschirmschoner und Systembenachrichtigungen abschalten; keine Tastatur bereitlegen, mit der Besucher das Programm wechseln können.</translation>
  </message>
  <message>
   <source>&amp;Light</source>
   <comment>knob</comment>
   <translation>&amp;Licht</translation>
  </message>
  <message>
   <source>&amp;Panels</source>
   <comment>knob</comment>
   <translation>&amp;Module</translation>
  </message>
  <message>
   <source>St&amp;ore</source>
   <comment>knob</comment>
   <translation>Spei&amp;cher</translation>
  </message>
  <message>
   <source>Loa&amp;d pulse</source>
   <comment>knob</comment>
   <translation>&amp;Puls</translation>
  </message>
  <message>
   <source>Light</source>
   <comment>theme</comment>
   <translation>Hell</translation>
  </message>
  <message>
   <source>Dark</source>
   <comment>theme</comment>
   <translation>Dunkel</translation>
  </message>
  <message>
   <source>High contrast</source>
   <translation>Hoher Kontrast</translation>
  </message>
  <message>
   <source>As the system</source>
   <translation>Wie das System</translation>
  </message>
  <message>
   <source>At {width} × {height} the word is {word} px high, the number {number} px, the names {names} px, text within reach {near} px, buttons {target} px.</source>
   <translation>Bei {width} × {height} ist das Wort {word} px hoch, die Zahl {number} px, die Namen {names} px, Text in Reichweite {near} px, Schaltflächen {target} px.</translation>
  </message>
  <message>
   <source>Select at least one scenario and one slider for visitors.</source>
   <translation>Mindestens ein Szenario und einen Schieber für Besucher auswählen.</translation>
  </message>
  <message>
   <source>{name}, seconds</source>
   <translation>{name}, Sekunden</translation>
  </message>
  <message>
   <source>Stand</source>
   <translation>Messestand</translation>
  </message>
  <message>
   <source>Quiet time before the warning</source>
   <translation>Ruhezeit vor der Warnung</translation>
  </message>
  <message>
   <source>Countdown of the warning, 20 s at least</source>
   <translation>Countdown der Warnung, mindestens 20 s</translation>
  </message>
  <message>
   <source>Time each scenario stays in the loop</source>
   <translation>Anzeigedauer jedes Szenarios im Wechsel</translation>
  </message>
  <message>
   <source> in</source>
   <comment>inches</comment>
   <translation> Zoll</translation>
  </message>
  <message>
   <source>Screen diagonal, inches</source>
   <translation>Bildschirmdiagonale, Zoll</translation>
  </message>
  <message>
   <source>Viewing distance, metres</source>
   <translation>Betrachtungsabstand, Meter</translation>
  </message>
  <message>
   <source>No &amp;motion between scenarios</source>
   <translation>Ohne &amp;Bewegung beim Wechsel</translation>
  </message>
  <message>
   <source>Scenarios left by visitors, newest first</source>
   <translation>Szenarien von Besuchern, neueste zuerst</translation>
  </message>
  <message>
   <source>Open in the main window</source>
   <translation>Im Hauptfenster öffnen</translation>
  </message>
  <message>
   <source>Delete all</source>
   <translation>Alle löschen</translation>
  </message>
  <message>
   <source>Start the stand</source>
   <translation>Messestand starten</translation>
  </message>
  <message>
   <source>Left by visitors, the last {number}</source>
   <translation>Von Besuchern, die letzten {number}</translation>
  </message>
  <message>
   <source>&amp;Title</source>
   <translation>&amp;Titel</translation>
  </message>
  <message>
   <source>Co&amp;ntact line</source>
   <translation>&amp;Kontaktzeile</translation>
  </message>
  <message>
   <source>T&amp;heme</source>
   <translation>&amp;Farbschema</translation>
  </message>
  <message>
   <source>Sliders for visitors</source>
   <translation>Schieber für Besucher</translation>
  </message>
  <message>
   <source>Screen dia&amp;gonal</source>
   <translation>Bildschirm&amp;diagonale</translation>
  </message>
  <message>
   <source>&amp;Viewing distance</source>
   <translation>Betrachtungs&amp;abstand</translation>
  </message>
  <message>
   <source>Page</source>
   <translation>Seite</translation>
  </message>
  <message>
   <source>Visitors</source>
   <translation>Besucher</translation>
  </message>
  <message>
   <source>Keeping</source>
   <translation>Betrieb</translation>
  </message>
  <message>
   <source>Contact line</source>
   <translation>Kontaktzeile</translation>
  </message>
  <message>
   <source>Theme</source>
   <translation>Farbschema</translation>
  </message>
  <message>
   <source>More pages</source>
   <translation>Weitere Seiten</translation>
  </message>
  <message>
   <source>Choose…</source>
   <translation>Wählen…</translation>
  </message>
  <message>
   <source>{label}: choose a file</source>
   <translation>{label}: Datei wählen</translation>
  </message>
  <message>
   <source>None</source>
   <translation>Ohne</translation>
  </message>
  <message>
   <source>{label}: none</source>
   <translation>{label}: keine</translation>
  </message>
  <message>
   <source>Own link</source>
   <translation>Eigener Link</translation>
  </message>
  <message>
   <source>The code leads there, with the design in it. Empty: it holds a short text.</source>
   <translation>Der Code führt dorthin, mit dem Entwurf darin. Leer: Er enthält einen kurzen Text.</translation>
  </message>
  <message>
   <source>Logo</source>
   <translation>Logo</translation>
  </message>
  <message>
   <source>Picture</source>
   <translation>Bild</translation>
  </message>
  <message>
   <source>P&amp;rint a sheet, on the printer of the system</source>
   <translation>Blatt d&amp;rucken, auf dem Drucker des Systems</translation>
  </message>
  <message>
   <source>Save on a &amp;USB stick</source>
   <translation>Auf &amp;USB-Stick sichern</translation>
  </message>
  <message>
   <source>S&amp;witch between English and German</source>
   <translation>Z&amp;wischen Englisch und Deutsch wechseln</translation>
  </message>
  <message>
   <source>Own lin&amp;k</source>
   <translation>Eigener Lin&amp;k</translation>
  </message>
  <message>
   <source>Visitors may</source>
   <translation>Besucher dürfen</translation>
  </message>
  <message>
   <source>Screen</source>
   <translation>Bildschirm</translation>
  </message>
  <message>
   <source>Where this window is</source>
   <translation>Wo dieses Fenster ist</translation>
  </message>
  <message>
   <source>Staff code, 4 to 8 digits</source>
   <translation>Code des Personals, 4 bis 8 Ziffern</translation>
  </message>
  <message>
   <source>No staff &amp;code</source>
   <translation>Kein &amp;Code des Personals</translation>
  </message>
  <message>
   <source>Address of a meter</source>
   <translation>Adresse eines Messgeräts</translation>
  </message>
  <message>
   <source>none</source>
   <comment>meter</comment>
   <translation>keines</translation>
  </message>
  <message>
   <source>A meter at the store of the real device, such as 192.0.2.7 or /dev/ttyUSB0: its readings are drawn over the forecast.</source>
   <translation>Ein Messgerät am Speicher des wirklichen Geräts, etwa 192.0.2.7 oder /dev/ttyUSB0: Seine Ablesungen werden über die Vorhersage gezeichnet.</translation>
  </message>
  <message>
   <source>Scenario of the device that the meter reads</source>
   <translation>Szenario des Geräts, das gemessen wird</translation>
  </message>
  <message>
   <source>Save the counts…</source>
   <translation>Zählung sichern…</translation>
  </message>
  <message>
   <source>&amp;Idle time</source>
   <translation>&amp;Ruhezeit</translation>
  </message>
  <message>
   <source>&amp;Warning</source>
   <translation>&amp;Warnung</translation>
  </message>
  <message>
   <source>C&amp;ycle time</source>
   <translation>W&amp;echselzeit</translation>
  </message>
  <message>
   <source>Sc&amp;reen</source>
   <translation>Bildschi&amp;rm</translation>
  </message>
  <message>
   <source>Meter</source>
   <translation>Messgerät</translation>
  </message>
  <message>
   <source>Counted</source>
   <translation>Gezählt</translation>
  </message>
  <message>
   <source>Save the counts</source>
   <translation>Zählung sichern</translation>
  </message>
  <message>
   <source>none</source>
   <comment>picture</comment>
   <translation>keines</translation>
  </message>
  <message>
   <source>Pictures</source>
   <translation>Bilder</translation>
  </message>
  <message>
   <source>{name} (away)</source>
   <translation>{name} (fehlt)</translation>
  </message>
  <message>
   <source>as before</source>
   <translation>wie bisher</translation>
  </message>
  <message>
   <source>4 to 8 digits</source>
   <translation>4 bis 8 Ziffern</translation>
  </message>
  <message>
   <source>A staff code has 4 to 8 digits.</source>
   <translation>Ein Code des Personals hat 4 bis 8 Ziffern.</translation>
  </message>
  <message>
   <source>The counts were not saved</source>
   <translation>Die Zählung wurde nicht gesichert</translation>
  </message>
  <message>
   <source>{label}: one step down</source>
   <translation>{label}: eine Stufe abwärts</translation>
  </message>
  <message>
   <source>{label}: one step up</source>
   <translation>{label}: eine Stufe aufwärts</translation>
  </message>
  <message>
   <source>Try {value}</source>
   <translation>{value} versuchen</translation>
  </message>
  <message>
   <source>starts</source>
   <comment>line of the trace</comment>
   <translation>Start</translation>
  </message>
  <message>
   <source>stops</source>
   <comment>line of the trace</comment>
   <translation>Stopp</translation>
  </message>
  <message>
   <source>energy store, V</source>
   <translation>Energiespeicher, V</translation>
  </message>
  <message>
   <source>Trace of the store voltage, V</source>
   <translation>Verlauf der Speicherspannung, V</translation>
  </message>
  <message>
   <source>Are you still there?</source>
   <translation>Ist noch jemand da?</translation>
  </message>
  <message>
   <source>Touch anywhere to go on</source>
   <translation>Zum Fortfahren irgendwo berühren</translation>
  </message>
  <message>
   <source>Touch or press any key.</source>
   <translation>Berühren oder eine Taste drücken.</translation>
  </message>
  <message>
   <source>Working it out…</source>
   <translation>Wird berechnet…</translation>
  </message>
  <message>
   <source>Unsaved changes would be lost in a crash; save often. {reason}</source>
   <translation>Ungespeicherte Änderungen gingen bei einem Absturz verloren; daher oft speichern. {reason}</translation>
  </message>
  <message>
   <source>{place} cannot be written.</source>
   <translation>{place} ist nicht beschreibbar.</translation>
  </message>
  <message>
   <source>{place} cannot be made: {reason}.</source>
   <translation>{place} kann nicht angelegt werden: {reason}.</translation>
  </message>
  <message>
   <source>No cycle is chosen.</source>
   <translation>Kein Zyklus gewählt.</translation>
  </message>
  <message>
   <source>The reading of the capture was stopped.</source>
   <translation>Das Lesen der Aufzeichnung wurde angehalten.</translation>
  </message>
  <message>
   <source>The other design cannot be computed: {reason}</source>
   <translation>Der andere Entwurf ist nicht berechenbar: {reason}</translation>
  </message>
  <message>
   <source>not saved yet</source>
   <translation>ungespeichert</translation>
  </message>
  <message>
   <source>This could not be computed: {reason}</source>
   <translation>Das ließ sich nicht berechnen: {reason}</translation>
  </message>
  <message>
   <source>operation {n}</source>
   <translation>Vorgang {n}</translation>
  </message>
  <message>
   <source>corridor</source>
   <translation>Flur</translation>
  </message>
  <message>
   <source>desk</source>
   <translation>Tisch</translation>
  </message>
  <message>
   <source>window</source>
   <translation>Fenster</translation>
  </message>
  <message>
   <source>shade</source>
   <translation>Schatten im Freien</translation>
  </message>
  <message>
   <source>sun</source>
   <translation>Sonne</translation>
  </message>
  <message>
   <source>capacitor</source>
   <translation>Kondensator</translation>
  </message>
  <message>
   <source>supercapacitor</source>
   <translation>Superkondensator</translation>
  </message>
  <message>
   <source>coin cell</source>
   <translation>Knopfzelle</translation>
  </message>
  <message>
   <source>pouch or round cell</source>
   <translation>Pouch- oder Rundzelle</translation>
  </message>
  <message>
   <source>Load pulse</source>
   <translation>Lastpuls</translation>
  </message>
  <message>
   <source>{name} cannot be computed: {reason}</source>
   <translation>{name} lässt sich nicht berechnen: {reason}</translation>
  </message>
  <message>
   <source>Looking for the meter {address}…</source>
   <translation>Messgerät {address} wird gesucht…</translation>
  </message>
  <message>
   <source>The run has ended; {n} readings are kept.</source>
   <translation>Der Messlauf ist beendet; Messwerte gesichert: {n}.</translation>
  </message>
  <message>
   <source>The meter answers: {name}.</source>
   <translation>Das Messgerät antwortet: {name}.</translation>
  </message>
  <message>
   <source>Numbers arrive from {address}.</source>
   <translation>Von {address} kommen Zahlen.</translation>
  </message>
  <message>
   <source>The program that reads the meter has ended unexpectedly; what was read is kept.</source>
   <translation>Das Programm, das das Messgerät ausliest, ist unerwartet beendet; das Gelesene ist gesichert.</translation>
  </message>
  <message>
   <source>Page {n} of {pages}</source>
   <translation>Seite {n} von {pages}</translation>
  </message>
  <message>
   <source>Scenario {hash}</source>
   <translation>Szenario {hash}</translation>
  </message>
  <message>
   <source>{place}: {why}.</source>
   <translation>{place}: {why}.</translation>
  </message>
  <message>
   <source>The settings in {file} are damaged, so the usual ones are used.</source>
   <translation>Die Einstellungen in {file} sind beschädigt, daher gelten die üblichen.</translation>
  </message>
  <message>
   <source>The settings cannot be kept, so they are forgotten at the end. {why}</source>
   <translation>Die Einstellungen lassen sich nicht behalten und sind am Ende vergessen. {why}</translation>
  </message>
  <message>
   <source>The settings were written by a newer version of the program, so the usual ones are used.</source>
   <translation>Die Einstellungen stammen von einer neueren Fassung des Programms, daher gelten die üblichen.</translation>
  </message>
  <message>
   <source>{file} refuses.</source>
   <translation>{file} verweigert sich.</translation>
  </message>
  <message>
   <source>settings file</source>
   <translation>Einstellungsdatei</translation>
  </message>
  <message>
   <source>The settings cannot be read, so the usual ones are used. {why}</source>
   <translation>Die Einstellungen lassen sich nicht lesen, daher gelten die üblichen. {why}</translation>
  </message>
  <message>
   <source>This scenario cannot be computed: {reason}</source>
   <translation>Dieses Szenario ist nicht berechenbar: {reason}</translation>
  </message>
  <message>
   <source>Is the light enough?</source>
   <translation>Reicht das Licht?</translation>
  </message>
  <message>
   <source>the text is not JSON: {reason}.</source>
   <translation>der Text ist kein JSON: {reason}.</translation>
  </message>
  <message>
   <source>{key} is not a known key; known are {known}.</source>
   <translation>{key} ist kein bekannter Schlüssel; bekannt sind {known}.</translation>
  </message>
  <message>
   <source>stand set-up</source>
   <translation>Messestand-Einrichtung</translation>
  </message>
  <message>
   <source>must name at least one of the four knobs</source>
   <translation>muss mindestens einen der vier Regler nennen</translation>
  </message>
  <message>
   <source>must begin with https:// or http://</source>
   <translation>muss mit https:// oder http:// beginnen</translation>
  </message>
  <message>
   <source>{n} of {count}</source>
   <translation>{n} von {count}</translation>
  </message>
  <message>
   <source>The guide</source>
   <translation>Der Wegweiser</translation>
  </message>
  <message>
   <source>No numbers at hand? The guide asks a few simple questions and answers with a design that you can change here.</source>
   <translation>Keine Zahlen zur Hand? Der Wegweiser stellt einige einfache Fragen und antwortet mit einem Entwurf, der sich hier ändern lässt.</translation>
  </message>
  <message>
   <source>Four sliders</source>
   <translation>Vier Schieber</translation>
  </message>
  <message>
   <source>Light, panels, store and load pulse: drag one, or give it the focus and use the arrow keys. Open the details below each for every other value.</source>
   <translation>Licht, Module, Speicher und Lastpuls: ziehen oder in den Fokus nehmen und die Pfeiltasten benutzen. Darunter lassen sich alle weiteren Werte aufklappen.</translation>
  </message>
  <message>
   <source>Where the track is thick and green, the design runs; where it is dashed, it is marginal, with everything else unchanged. The line below gives the same in numbers.</source>
   <translation>Wo die Bahn dick und grün ist, läuft der Entwurf; wo sie gestrichelt ist, ist er knapp – alles andere unverändert. Die Zeile darunter sagt es in Zahlen.</translation>
  </message>
  <message>
   <source>The verdict</source>
   <translation>Das Urteil</translation>
  </message>
  <message>
   <source>A full disc runs, a half disc is marginal: it works, with less margin than required. An open ring falls short. Beside it stands the deciding reason, below it the six checks; press one to read it.</source>
   <translation>Eine volle Scheibe läuft, eine halbe ist knapp: Es geht, mit kleinerem Faktor als verlangt. Ein offener Ring reicht nicht. Daneben steht der entscheidende Grund, darunter die sechs Prüfungen; eine antippen, um sie zu lesen.</translation>
  </message>
  <message>
   <source>The trace</source>
   <translation>Der Verlauf</translation>
  </message>
  <message>
   <source>The store's voltage over the week, lit hours shaded, thresholds dashed. Point at it, or use the arrow keys, to read every curve at one moment.</source>
   <translation>Die Speicherspannung über die Woche, helle Stunden hinterlegt, Schwellen gestrichelt. Mit dem Zeiger oder den Pfeiltasten sind alle Kurven in einem Moment abzulesen.</translation>
  </message>
  <message>
   <source>The questions</source>
   <translation>Die Fragen</translation>
  </message>
  <message>
   <source>Where the energy goes, which store suits, where else it would work, how certain the answer is, how the panel works, whether a measurement agrees, what the year brings, and which build is best. F1 explains what has the focus. This tour is in the Help menu.</source>
   <translation>Wohin die Energie geht, welcher Speicher passt, wo es sonst noch ginge, wie sicher die Antwort ist, wie das Modul arbeitet, ob eine Messung übereinstimmt, was das Jahr bringt und welcher Aufbau der beste ist. F1 erklärt, was den Fokus hat. Dieser Rundgang steht im Menü Hilfe.</translation>
  </message>
  <message>
   <source> and </source>
   <translation> und </translation>
  </message>
  <message>
   <source>&amp;New</source>
   <translation>&amp;Neu</translation>
  </message>
  <message>
   <source>New scenario</source>
   <translation>Neues Szenario</translation>
  </message>
  <message>
   <source>New &amp;window</source>
   <translation>Neues &amp;Fenster</translation>
  </message>
  <message>
   <source>Open a further window</source>
   <translation>Ein weiteres Fenster öffnen</translation>
  </message>
  <message>
   <source>&amp;Close window</source>
   <translation>Fenster s&amp;chließen</translation>
  </message>
  <message>
   <source>Close this window</source>
   <translation>Dieses Fenster schließen</translation>
  </message>
  <message>
   <source>&amp;Open…</source>
   <translation>&amp;Öffnen…</translation>
  </message>
  <message>
   <source>Open a scenario</source>
   <translation>Szenario öffnen</translation>
  </message>
  <message>
   <source>Read a&amp;gain</source>
   <translation>Neu ein&amp;lesen</translation>
  </message>
  <message>
   <source>Read the file again as it is on the disk</source>
   <translation>Die Datei neu einlesen, wie sie auf dem Datenträger ist</translation>
  </message>
  <message>
   <source>&amp;Save</source>
   <translation>&amp;Speichern</translation>
  </message>
  <message>
   <source>Save the scenario</source>
   <translation>Szenario speichern</translation>
  </message>
  <message>
   <source>Save &amp;as…</source>
   <translation>Speichern &amp;unter…</translation>
  </message>
  <message>
   <source>Save under another name</source>
   <translation>Unter anderem Namen speichern</translation>
  </message>
  <message>
   <source>&amp;Keep as a study…</source>
   <translation>Als Stu&amp;die behalten…</translation>
  </message>
  <message>
   <source>Keep the design with its logged runs, the designs beside it and the results in one folder</source>
   <translation>Den Entwurf mit seinen Aufzeichnungen, den Entwürfen daneben und den Ergebnissen in einem Ordner behalten</translation>
  </message>
  <message>
   <source>Write a re&amp;port…</source>
   <translation>Be&amp;richt schreiben…</translation>
  </message>
  <message>
   <source>Write all of it to PDF or HTML, for another engineer to check</source>
   <translation>Alles als PDF oder HTML schreiben, damit es jemand prüfen kann</translation>
  </message>
  <message>
   <source>Read a load cap&amp;ture…</source>
   <translation>S&amp;tromaufzeichnung lesen…</translation>
  </message>
  <message>
   <source>Make an operation of a current that an analyser or an oscilloscope captured</source>
   <translation>Aus einem Strom, den ein Messgerät oder Oszilloskop aufgezeichnet hat, einen Vorgang machen</translation>
  </message>
  <message>
   <source>&amp;Quit</source>
   <translation>B&amp;eenden</translation>
  </message>
  <message>
   <source>Close every window</source>
   <translation>Alle Fenster schließen</translation>
  </message>
  <message>
   <source>&amp;Undo</source>
   <translation>&amp;Rückgängig</translation>
  </message>
  <message>
   <source>Undo</source>
   <translation>Rückgängig</translation>
  </message>
  <message>
   <source>&amp;Redo</source>
   <translation>&amp;Wiederholen</translation>
  </message>
  <message>
   <source>Redo</source>
   <translation>Wiederholen</translation>
  </message>
  <message>
   <source>&amp;Pin</source>
   <translation>&amp;Anheften</translation>
  </message>
  <message>
   <source>Keep this design as a dashed curve to compare with</source>
   <translation>Diesen Entwurf als gestrichelte Kurve zum Vergleich behalten</translation>
  </message>
  <message>
   <source>Parts of your o&amp;wn…</source>
   <translation>Ei&amp;gene Bauteile…</translation>
  </message>
  <message>
   <source>Panels, chargers, stores and loads of your own: take, keep, edit and share them</source>
   <translation>Eigene Module, Laderegler, Speicher und Lasten: übernehmen, ablegen, bearbeiten, weitergeben</translation>
  </message>
  <message>
   <source>&amp;Compare…</source>
   <translation>&amp;Vergleichen…</translation>
  </message>
  <message>
   <source>Compare this design with another one</source>
   <translation>Diesen Entwurf mit einem anderen vergleichen</translation>
  </message>
  <message>
   <source>Compare se&amp;veral…</source>
   <translation>&amp;Mehrere vergleichen…</translation>
  </message>
  <message>
   <source>Lay up to six designs over each other</source>
   <translation>Bis zu sechs Entwürfe übereinanderlegen</translation>
  </message>
  <message>
   <source>Exhibition s&amp;tand…</source>
   <translation>Messes&amp;tand…</translation>
  </message>
  <message>
   <source>Set up the page for visitors of a stand</source>
   <translation>Die Seite für Besucher eines Messestands einrichten</translation>
  </message>
  <message>
   <source>&amp;Guide…</source>
   <translation>&amp;Wegweiser…</translation>
  </message>
  <message>
   <source>Some plain questions and an answer</source>
   <translation>Einige einfache Fragen und eine Antwort</translation>
  </message>
  <message>
   <source>Next part</source>
   <translation>Nächster Teil</translation>
  </message>
  <message>
   <source>Go on to the knobs, the middle or the verdict</source>
   <translation>Weiter zu den Reglern, der Mitte oder dem Urteil</translation>
  </message>
  <message>
   <source>Part before</source>
   <translation>Teil davor</translation>
  </message>
  <message>
   <source>Go back to the verdict, the middle or the knobs</source>
   <translation>Zurück zum Urteil, zur Mitte oder zu den Reglern</translation>
  </message>
  <message>
   <source>&amp;Explain what has the focus</source>
   <translation>Das Element im Fokus &amp;erklären</translation>
  </message>
  <message>
   <source>Explain what has the focus</source>
   <translation>Das Element im Fokus erklären</translation>
  </message>
  <message>
   <source>Every &amp;quantity</source>
   <translation>Alle &amp;Größen</translation>
  </message>
  <message>
   <source>Explain every quantity</source>
   <translation>Alle Größen erklären</translation>
  </message>
  <message>
   <source>&amp;Keyboard</source>
   <translation>&amp;Tastatur</translation>
  </message>
  <message>
   <source>Show every key</source>
   <translation>Alle Tasten zeigen</translation>
  </message>
  <message>
   <source>&amp;Model note</source>
   <translation>&amp;Modellbeschreibung</translation>
  </message>
  <message>
   <source>How it is computed, and how well</source>
   <translation>Wie gerechnet wird, und wie genau</translation>
  </message>
  <message>
   <source>&amp;Tour of the window</source>
   <translation>&amp;Rundgang durch das Fenster</translation>
  </message>
  <message>
   <source>Show the tour of the window again</source>
   <translation>Den Rundgang durch das Fenster noch einmal zeigen</translation>
  </message>
  <message>
   <source>Where does the &amp;energy go?</source>
   <translation>Wohin geht die &amp;Energie?</translation>
  </message>
  <message>
   <source>Show where the energy goes</source>
   <translation>Zeigen, wohin die Energie geht</translation>
  </message>
  <message>
   <source>&amp;Which store?</source>
   <translation>&amp;Welcher Speicher?</translation>
  </message>
  <message>
   <source>Compare every kind of store</source>
   <translation>Alle Speicherarten vergleichen</translation>
  </message>
  <message>
   <source>Where would it wor&amp;k?</source>
   <translation>W&amp;o würde es laufen?</translation>
  </message>
  <message>
   <source>Map the verdict over two quantities</source>
   <translation>Das Urteil über zwei Größen auftragen</translation>
  </message>
  <message>
   <source>H&amp;ow sure?</source>
   <translation>Wie s&amp;icher?</translation>
  </message>
  <message>
   <source>See what tolerances and age do</source>
   <translation>Sehen, was Toleranzen und Alter bewirken</translation>
  </message>
  <message>
   <source>How does the &amp;panel work?</source>
   <translation>Wie arbeitet das &amp;Modul?</translation>
  </message>
  <message>
   <source>Show the panel's curves</source>
   <translation>Die Kennlinien des Moduls zeigen</translation>
  </message>
  <message>
   <source>Does it &amp;match a measurement?</source>
   <translation>P&amp;asst es zur Messung?</translation>
  </message>
  <message>
   <source>Compare the forecast with a measurement</source>
   <translation>Die Vorhersage mit einer Messung vergleichen</translation>
  </message>
  <message>
   <source>What does the &amp;year bring?</source>
   <translation>Was bringt das &amp;Jahr?</translation>
  </message>
  <message>
   <source>See the seasons, the dark weeks and what is left of the store after years</source>
   <translation>Jahreszeiten, dunkle Wochen und was nach Jahren vom Speicher bleibt</translation>
  </message>
  <message>
   <source>Which &amp;build?</source>
   <translation>Welcher Auf&amp;bau?</translation>
  </message>
  <message>
   <source>Search panels, charger and store that do it</source>
   <translation>Module, Laderegler und Speicher suchen, die es können</translation>
  </message>
  <message>
   <source>&amp;About Gloaming</source>
   <translation>&amp;Über Gloaming</translation>
  </message>
  <message>
   <source>About this program</source>
   <translation>Über dieses Programm</translation>
  </message>
  <message>
   <source>Tables (*.csv *.tsv *.txt)</source>
   <translation>Tabellen (*.csv *.tsv *.txt)</translation>
  </message>
  <message>
   <source>Open a captured current</source>
   <translation>Stromaufzeichnung öffnen</translation>
  </message>
  <message>
   <source>Load from a captured current</source>
   <translation>Last aus einer Stromaufzeichnung</translation>
  </message>
  <message>
   <source>Captured current in A against time</source>
   <translation>Aufgezeichneter Strom in A über der Zeit</translation>
  </message>
  <message>
   <source>Captured current</source>
   <translation>Aufgezeichneter Strom</translation>
  </message>
  <message>
   <source>Current of the chosen cycle in A against time, captured and as phases</source>
   <translation>Strom des gewählten Zyklus in A über der Zeit, aufgezeichnet und als Phasen</translation>
  </message>
  <message>
   <source>Chosen cycle</source>
   <translation>Gewählter Zyklus</translation>
  </message>
  <message>
   <source>captured</source>
   <translation>aufgezeichnet</translation>
  </message>
  <message>
   <source>Runs when that operation ran</source>
   <translation>Läuft, wenn jener Vorgang lief</translation>
  </message>
  <message>
   <source>Else it begins anew with every cycle</source>
   <translation>Sonst beginnt er mit jedem Zyklus neu</translation>
  </message>
  <message>
   <source>Current in decades</source>
   <translation>Strom in Dekaden</translation>
  </message>
  <message>
   <source>Another file…</source>
   <translation>Andere Datei…</translation>
  </message>
  <message>
   <source>Open another captured current</source>
   <translation>Eine andere Stromaufzeichnung öffnen</translation>
  </message>
  <message>
   <source>Take it</source>
   <translation>Übernehmen</translation>
  </message>
  <message>
   <source>Put the operation and the sleep current into the scenario</source>
   <translation>Vorgang und Ruhestrom in das Szenario übernehmen</translation>
  </message>
  <message>
   <source>Cancel</source>
   <translation>Abbrechen</translation>
  </message>
  <message>
   <source>Leave the scenario as it is</source>
   <translation>Das Szenario lassen, wie es ist</translation>
  </message>
  <message>
   <source>Reading {file}…</source>
   <translation>{file} wird gelesen…</translation>
  </message>
  <message>
   <source>a further operation</source>
   <translation>einen weiteren Vorgang</translation>
  </message>
  <message>
   <source>Stands for</source>
   <translation>Steht für</translation>
  </message>
  <message>
   <source>What is in it</source>
   <translation>Was darin ist</translation>
  </message>
  <message>
   <source>One cycle, as an operation</source>
   <translation>Ein Zyklus, als Vorgang</translation>
  </message>
  <message>
   <source>all operations</source>
   <translation>alle Vorgänge</translation>
  </message>
  <message>
   <source>Reading {file}… {share} %</source>
   <translation>{file} wird gelesen … {share} %</translation>
  </message>
  <message>
   <source>captured ▮</source>
   <translation>aufgezeichnet ▮</translation>
  </message>
  <message>
   <source>phases —</source>
   <translation>Phasen —</translation>
  </message>
  <message>
   <source>Compare this design with</source>
   <translation>Diesen Entwurf vergleichen mit</translation>
  </message>
  <message>
   <source>No design is pinned; Ctrl+P pins the open one</source>
   <translation>Kein Entwurf ist angeheftet; Strg+P heftet den offenen an</translation>
  </message>
  <message>
   <source>The pinned design</source>
   <translation>Der angeheftete Entwurf</translation>
  </message>
  <message>
   <source>The pinned design: none yet</source>
   <translation>Der angeheftete Entwurf: noch keiner</translation>
  </message>
  <message>
   <source>Example: {name}</source>
   <translation>Beispiel: {name}</translation>
  </message>
  <message>
   <source>A scenario file…</source>
   <translation>Eine Szenariodatei…</translation>
  </message>
  <message>
   <source>This design</source>
   <translation>Dieser Entwurf</translation>
  </message>
  <message>
   <source>The other</source>
   <translation>Der andere</translation>
  </message>
  <message>
   <source>the pinned design</source>
   <translation>der angeheftete Entwurf</translation>
  </message>
  <message>
   <source>The other: {name}</source>
   <translation>Der andere: {name}</translation>
  </message>
  <message>
   <source>Compare – Gloaming</source>
   <translation>Vergleich – Gloaming</translation>
  </message>
  <message>
   <source>What differs, one value a row; Enter takes the other design's value over</source>
   <translation>Unterschiede, ein Wert je Zeile; Enter übernimmt den Wert des anderen Entwurfs</translation>
  </message>
  <message>
   <source>Checks and answers of both designs</source>
   <translation>Prüfungen und Antworten beider Entwürfe</translation>
  </message>
  <message>
   <source>Take over</source>
   <translation>Übernehmen</translation>
  </message>
  <message>
   <source>Put the other design's value in place of this one's, for every chosen row (Enter; undo takes it back)</source>
   <translation>In jeder gewählten Zeile den Wert des anderen Entwurfs einsetzen (Enter; Rückgängig nimmt es zurück)</translation>
  </message>
  <message>
   <source>Compare with…</source>
   <translation>Vergleichen mit…</translation>
  </message>
  <message>
   <source>Choose the other design</source>
   <translation>Den anderen Entwurf wählen</translation>
  </message>
  <message>
   <source>Export table…</source>
   <translation>Tabellenexport…</translation>
  </message>
  <message>
   <source>Save a table as CSV</source>
   <translation>Eine Tabelle als CSV speichern</translation>
  </message>
  <message>
   <source>Close the comparison (Esc)</source>
   <translation>Vergleich schließen (Esc)</translation>
  </message>
  <message>
   <source>What differs</source>
   <translation>Unterschiede</translation>
  </message>
  <message>
   <source>What comes of it</source>
   <translation>Was sich ergibt</translation>
  </message>
  <message>
   <source>the other</source>
   <translation>der andere</translation>
  </message>
  <message>
   <source>Take {n} over</source>
   <translation>{n} übernehmen</translation>
  </message>
  <message>
   <source>The scenario was not opened</source>
   <translation>Das Szenario wurde nicht geöffnet</translation>
  </message>
  <message>
   <source>Nothing was exported</source>
   <translation>Nichts wurde exportiert</translation>
  </message>
  <message>
   <source>Store voltage of both, V</source>
   <translation>Speicherspannung beider, V</translation>
  </message>
  <message>
   <source>What &amp;differs, CSV…</source>
   <translation>&amp;Unterschiede, CSV…</translation>
  </message>
  <message>
   <source>Checks and &amp;answers, CSV…</source>
   <translation>Prüfungen und &amp;Antworten, CSV…</translation>
  </message>
  <message>
   <source>Store voltage of all designs, V</source>
   <translation>Speicherspannung aller Entwürfe, V</translation>
  </message>
  <message>
   <source>Designs side by side, one a column</source>
   <translation>Entwürfe nebeneinander, je eine Spalte</translation>
  </message>
  <message>
   <source>Several designs – Gloaming</source>
   <translation>Mehrere Entwürfe – Gloaming</translation>
  </message>
  <message>
   <source>Add a design…</source>
   <translation>Entwurf hinzufügen…</translation>
  </message>
  <message>
   <source>Lay another design beside the open one</source>
   <translation>Einen weiteren Entwurf neben den offenen legen</translation>
  </message>
  <message>
   <source>Take it out</source>
   <translation>Herausnehmen</translation>
  </message>
  <message>
   <source>Take the design of the chosen column out of the comparison</source>
   <translation>Den Entwurf der gewählten Spalte aus dem Vergleich nehmen</translation>
  </message>
  <message>
   <source>Save the table as CSV</source>
   <translation>Die Tabelle als CSV sichern</translation>
  </message>
  <message>
   <source>Write a report…</source>
   <translation>Bericht schreiben…</translation>
  </message>
  <message>
   <source>Write the comparison to PDF or HTML for others to read</source>
   <translation>Den Vergleich für andere als PDF oder HTML schreiben</translation>
  </message>
  <message>
   <source>The report was written: {path}</source>
   <translation>Der Bericht wurde geschrieben: {path}</translation>
  </message>
  <message>
   <source>{n} of at most {most} designs</source>
   <translation>{n} von höchstens {most} Entwürfen</translation>
  </message>
  <message>
   <source>Add designs to compare with this one</source>
   <translation>Entwürfe hinzufügen, um sie mit diesem zu vergleichen</translation>
  </message>
  <message>
   <source>{title}, version {n}</source>
   <translation>{title}, Fassung {n}</translation>
  </message>
  <message>
   <source>Store voltage, V</source>
   <translation>Speicherspannung, V</translation>
  </message>
  <message>
   <source>The design as it is now</source>
   <translation>Der Entwurf, wie er jetzt ist</translation>
  </message>
  <message>
   <source>The report was not written</source>
   <translation>Der Bericht wurde nicht geschrieben</translation>
  </message>
  <message>
   <source>working…</source>
   <translation>rechnet…</translation>
  </message>
  <message>
   <source>Take over {value} as {label} (Enter; undo takes it back)</source>
   <translation>{label}: {value} übernehmen (Enter; Rückgängig nimmt es zurück)</translation>
  </message>
  <message>
   <source>Does it match a measurement?</source>
   <translation>Passt es zur Messung?</translation>
  </message>
  <message>
   <source>readings</source>
   <translation>Messwerte</translation>
  </message>
  <message>
   <source>values</source>
   <translation>Werte</translation>
  </message>
  <message>
   <source>measurements</source>
   <translation>Messungen</translation>
  </message>
  <message>
   <source>changes</source>
   <translation>Änderungen</translation>
  </message>
  <message>
   <source>Fit</source>
   <comment>values</comment>
   <translation>Anpassen</translation>
  </message>
  <message>
   <source>Search the values that follow the logs best</source>
   <translation>Die Werte suchen, die den Messläufe am besten folgen</translation>
  </message>
  <message>
   <source>Put the fitted values into the design; undo takes them back</source>
   <translation>Die angepassten Werte in den Entwurf übernehmen; Rückgängig nimmt sie zurück</translation>
  </message>
  <message>
   <source>Fitting…</source>
   <translation>Anpassung läuft…</translation>
  </message>
  <message>
   <source>Looking at what could be measured next…</source>
   <translation>Was sich als Nächstes messen ließe, wird gesucht…</translation>
  </message>
  <message>
   <source>The search was stopped.</source>
   <translation>Die Suche wurde angehalten.</translation>
  </message>
  <message>
   <source>Stop</source>
   <translation>Anhalten</translation>
  </message>
  <message>
   <source>Open a table with the columns time and store_V (or store_mV), and lux where the light was logged too, or drop the file on the window. Or write down by hand what a meter shows, or let a meter be followed as it measures.</source>
   <translation>Eine Tabelle mit den Spalten time und store_V (oder store_mV) öffnen, dazu lux, wenn auch das Licht aufgezeichnet wurde; oder die Datei auf das Fenster ziehen. Oder von Hand notieren, was ein Messgerät anzeigt, oder ein Messgerät verfolgen lassen, während es misst.</translation>
  </message>
  <message>
   <source>Open log…</source>
   <translation>Messlauf öffnen…</translation>
  </message>
  <message>
   <source>Open a logged run of the device</source>
   <translation>Einen aufgezeichneten Lauf des Geräts öffnen</translation>
  </message>
  <message>
   <source>Write down…</source>
   <translation>Notieren…</translation>
  </message>
  <message>
   <source>Write down what a meter shows, by hand</source>
   <translation>Die Anzeige eines Messgeräts von Hand notieren</translation>
  </message>
  <message>
   <source>Follow a meter…</source>
   <translation>Messgerät verfolgen…</translation>
  </message>
  <message>
   <source>Read a multimeter as it measures</source>
   <translation>Ein Multimeter ablesen, während es misst</translation>
  </message>
  <message>
   <source>Logged voltage and forecast in V against time</source>
   <translation>Gemessene Spannung und Vorhersage in V über der Zeit</translation>
  </message>
  <message>
   <source>log ••</source>
   <translation>Messlauf ••</translation>
  </message>
  <message>
   <source>forecast —</source>
   <translation>Vorhersage —</translation>
  </message>
  <message>
   <source>fitted – –</source>
   <translation>Fit – –</translation>
  </message>
  <message>
   <source>Open a logged run</source>
   <translation>Messlauf öffnen</translation>
  </message>
  <message>
   <source>Another…</source>
   <translation>Anderer…</translation>
  </message>
  <message>
   <source>Another run: from a file, by hand or from a meter</source>
   <translation>Ein anderer Messlauf: aus einer Datei, von Hand oder von einem Messgerät</translation>
  </message>
  <message>
   <source>First &amp;rows…</source>
   <translation>Erste &amp;Zeilen…</translation>
  </message>
  <message>
   <source>&amp;Open log…</source>
   <translation>Messlauf ö&amp;ffnen…</translation>
  </message>
  <message>
   <source>&amp;Write down…</source>
   <translation>&amp;Notieren…</translation>
  </message>
  <message>
   <source>Follow a &amp;meter…</source>
   <translation>&amp;Messgerät verfolgen…</translation>
  </message>
  <message>
   <source>Keep as part</source>
   <translation>Als Bauteil behalten</translation>
  </message>
  <message>
   <source>Put what is determined on your shelf of parts with its ±, and take it from there</source>
   <translation>Was bestimmt ist, mit seinem ± ins Regal der Bauteile legen und von dort nehmen</translation>
  </message>
  <message>
   <source>What is known…</source>
   <translation>Was bekannt ist…</translation>
  </message>
  <message>
   <source>Tell how well the values are known that are not fitted</source>
   <translation>Sagen, wie gut die nicht angepassten Werte bekannt sind</translation>
  </message>
  <message>
   <source>What next?</source>
   <translation>Was als Nächstes?</translation>
  </message>
  <message>
   <source>Which measurement to make next, and by how much it would narrow each value</source>
   <translation>Welche Messung als Nächstes, und um wie viel sie jeden Wert eingrenzt</translation>
  </message>
  <message>
   <source>File, Keep as a study… keeps these runs and their conditions.</source>
   <translation>Datei, Als Studie behalten… bewahrt diese Aufzeichnungen und ihre Bedingungen.</translation>
  </message>
  <message>
   <source>On your shelf and in the design: {titles}. Its ± counts in How sure? in place of the usual tolerance.</source>
   <translation>Im Regal und im Entwurf: {titles}. Ihr ± gilt unter Wie sicher? anstelle der üblichen Toleranz.</translation>
  </message>
  <message>
   <source>now {value}, fitted {fitted}</source>
   <translation>jetzt {value}, angepasst {fitted}</translation>
  </message>
  <message>
   <source>now {value}</source>
   <translation>jetzt {value}</translation>
  </message>
  <message>
   <source>{label}: {value}, {share}. Click to change it</source>
   <translation>{label}: {value}, {share}. Zum Ändern anklicken</translation>
  </message>
  <message>
   <source>Energy by where it ends</source>
   <translation>Energie, nach Verbleib</translation>
  </message>
  <message>
   <source>Where does the energy go?</source>
   <translation>Wohin geht die Energie?</translation>
  </message>
  <message>
   <source>Nothing to show because no light reaches the panel. Give it more light or longer lit periods.</source>
   <translation>Nichts zu zeigen, weil kein Licht das Modul erreicht. Mehr Licht oder längere Lichtzeiten vorgeben.</translation>
  </message>
  <message>
   <source>Which build?</source>
   <translation>Welcher Aufbau?</translation>
  </message>
  <message>
   <source>Take this build</source>
   <translation>Diesen Aufbau nehmen</translation>
  </message>
  <message>
   <source>Builds that no other beats, by price</source>
   <translation>Aufbauten, die kein anderer schlägt, nach Preis</translation>
  </message>
  <message>
   <source>Measure across</source>
   <translation>Maß waagrecht</translation>
  </message>
  <message>
   <source>Measure up</source>
   <translation>Maß senkrecht</translation>
  </message>
  <message>
   <source>Across</source>
   <comment>axis</comment>
   <translation>Waagrecht</translation>
  </message>
  <message>
   <source>Up</source>
   <comment>axis</comment>
   <translation>Senkrecht</translation>
  </message>
  <message>
   <source>Builds that run, over two measures</source>
   <translation>Aufbauten, die laufen, über zwei Maßen</translation>
  </message>
  <message>
   <source>What the charger passes on</source>
   <translation>Was der Laderegler weitergibt</translation>
  </message>
  <message>
   <source>now</source>
   <translation>jetzt</translation>
  </message>
  <message>
   <source>at connect</source>
   <translation>beim Einschalten</translation>
  </message>
  <message>
   <source>Which store?</source>
   <translation>Welcher Speicher?</translation>
  </message>
  <message>
   <source>Kinds of store, one a row; Enter takes the chosen one</source>
   <translation>Speicherarten, eine je Zeile; Enter übernimmt die gewählte</translation>
  </message>
  <message>
   <source>Take this store</source>
   <translation>Diesen übernehmen</translation>
  </message>
  <message>
   <source>Put the chosen store into the design (Enter; undo takes it back)</source>
   <translation>Den gewählten Speicher in den Entwurf einsetzen (Enter; Rückgängig nimmt ihn zurück)</translation>
  </message>
  <message>
   <source>There is nothing to show because the library holds no store.</source>
   <translation>Nichts zu zeigen, weil die Bibliothek keinen Speicher enthält.</translation>
  </message>
  <message>
   <source>voltage over time</source>
   <translation>Spannung über der Zeit</translation>
  </message>
  <message>
   <source>{sentence}
Change the design or open the drawer again.</source>
   <translation>{sentence}
Den Entwurf ändern oder das Fach erneut öffnen.</translation>
  </message>
  <message>
   <source>The file was written: {path}</source>
   <translation>Die Datei wurde geschrieben: {path}</translation>
  </message>
  <message>
   <source>Pictures (*.png)</source>
   <translation>Bilder (*.png)</translation>
  </message>
  <message>
   <source>Drawings (*.svg)</source>
   <translation>Zeichnungen (*.svg)</translation>
  </message>
  <message>
   <source>Tables (*.csv)</source>
   <translation>Tabellen (*.csv)</translation>
  </message>
  <message>
   <source>Export</source>
   <translation>Export</translation>
  </message>
  <message>
   <source>The name of a {kind} file ends in {ending}; {name} does not.</source>
   <translation>Der Name einer {kind}-Datei endet auf {ending}; {name} tut das nicht.</translation>
  </message>
  <message>
   <source>{name} cannot be written there.</source>
   <translation>{name} kann dort nicht geschrieben werden.</translation>
  </message>
  <message>
   <source>Export…</source>
   <translation>Export…</translation>
  </message>
  <message>
   <source>Save this picture or its numbers</source>
   <translation>Dieses Bild oder seine Zahlen speichern</translation>
  </message>
  <message>
   <source>Export picture or numbers</source>
   <translation>Bild oder Zahlen exportieren</translation>
  </message>
  <message>
   <source>Numbers, &amp;CSV…</source>
   <translation>Zahlen, &amp;CSV…</translation>
  </message>
  <message>
   <source>Numbers: {name}, &amp;CSV…</source>
   <translation>Zahlen: {name}, &amp;CSV…</translation>
  </message>
  <message>
   <source>Picture, &amp;PNG…</source>
   <translation>Bild, &amp;PNG…</translation>
  </message>
  <message>
   <source>Picture, &amp;SVG…</source>
   <translation>Bild, &amp;SVG…</translation>
  </message>
  <message>
   <source>Voltage, V</source>
   <translation>Spannung, V</translation>
  </message>
  <message>
   <source>Light, lx</source>
   <translation>Licht, lx</translation>
  </message>
  <message>
   <source>{n} readings, kept on disk and shown in the drawer.</source>
   <translation>Messwerte, gesichert und im Fach gezeigt: {n}.</translation>
  </message>
  <message>
   <source>Readings by hand</source>
   <translation>Messwerte von Hand</translation>
  </message>
  <message>
   <source>Write the present time into a new row, then type what the meter shows</source>
   <translation>Die jetzige Zeit in eine neue Zeile schreiben, dann die Anzeige des Messgeräts eintippen</translation>
  </message>
  <message>
   <source>Remove row</source>
   <translation>Zeile entfernen</translation>
  </message>
  <message>
   <source>Remove the chosen row</source>
   <translation>Die gewählte Zeile entfernen</translation>
  </message>
  <message>
   <source>Go on with the last one</source>
   <translation>Den letzten fortsetzen</translation>
  </message>
  <message>
   <source>Take up the run that was written down last</source>
   <translation>Den zuletzt notierten Messlauf wieder aufnehmen</translation>
  </message>
  <message>
   <source>The run stays in the drawer and on disk</source>
   <translation>Der Messlauf bleibt im Fach und auf dem Datenträger</translation>
  </message>
  <message>
   <source>Press Now at the moment of a reading, type the voltage and press Enter. Light is optional. Times may also be typed: 14:05:30, or 90 s, 5 min since the beginning.</source>
   <translation>Im Augenblick des Ablesens „Jetzt“ drücken, die Spannung eintippen und Enter drücken. Licht ist freigestellt. Zeiten lassen sich auch eintippen: 14:05:30 oder 90 s, 5 min seit Beginn.</translation>
  </message>
  <message>
   <source>Readings: time, voltage and light</source>
   <translation>Messwerte: Zeit, Spannung und Licht</translation>
  </message>
  <message>
   <source>{n} of the {least} readings that a comparison needs.</source>
   <translation>{n} von {least} Messwerten, die ein Vergleich braucht.</translation>
  </message>
  <message>
   <source>Row {n}: {why} It is kept once it is put right.</source>
   <translation>Zeile {n}: {why} Sie wird gesichert, sobald sie stimmt.</translation>
  </message>
  <message>
   <source>half of the devices lie below {middle}, nine in ten between {low} and {high}</source>
   <translation>die Hälfte der Geräte liegt unter {middle}, neun von zehn zwischen {low} und {high}</translation>
  </message>
  <message>
   <source>{share} never</source>
   <translation>{share} nie</translation>
  </message>
  <message>
   <source>What the fit takes for granted may be wrong by its tolerance, and the ± says so. Where you have measured a value of this device, write how well; leave the others empty.</source>
   <translation>Was die Anpassung voraussetzt, kann um seine Toleranz falsch sein, und das ± sagt es. Wo ein Wert dieses Geräts gemessen ist, eintragen wie gut; die anderen leer lassen.</translation>
  </message>
  <message>
   <source>How well the rest is known</source>
   <translation>Wie gut der Rest bekannt ist</translation>
  </message>
  <message>
   <source>Use</source>
   <translation>Verwenden</translation>
  </message>
  <message>
   <source>Fit with what is known so well</source>
   <translation>Mit so gut Bekanntem anpassen</translation>
  </message>
  <message>
   <source>Leave everything as it is</source>
   <translation>Alles lassen, wie es ist</translation>
  </message>
  <message>
   <source>Usual ±</source>
   <translation>Übliches ±</translation>
  </message>
  <message>
   <source>Known to ±</source>
   <translation>Bekannt auf ±</translation>
  </message>
  <message>
   <source>{label}, known to per cent</source>
   <translation>{label}, bekannt auf Prozent</translation>
  </message>
  <message>
   <source>Allowed is 0 to {most}.</source>
   <translation>Erlaubt ist 0 bis {most}.</translation>
  </message>
  <message>
   <source>Without lithium cells</source>
   <translation>Ohne Lithiumzellen</translation>
  </message>
  <message>
   <source>One panel only</source>
   <translation>Nur ein Modul</translation>
  </message>
  <message>
   <source>No limits</source>
   <translation>Keine Grenzen</translation>
  </message>
  <message>
   <source>Limits: {limits}</source>
   <translation>Grenzen: {limits}</translation>
  </message>
  <message>
   <source>{n} limits</source>
   <translation>{n} Grenzen</translation>
  </message>
  <message>
   <source>Stop meter</source>
   <translation>Messgerät anhalten</translation>
  </message>
  <message>
   <source>End the run; what was read is kept</source>
   <translation>Den Messlauf beenden; das Gelesene bleibt erhalten</translation>
  </message>
  <message>
   <source>Follow a meter</source>
   <translation>Messgerät verfolgen</translation>
  </message>
  <message>
   <source>Go on with the run that was interrupted</source>
   <translation>Den unterbrochenen Messlauf fortsetzen</translation>
  </message>
  <message>
   <source>Start</source>
   <translation>Start</translation>
  </message>
  <message>
   <source>Follow the meter; every reading is kept at once</source>
   <translation>Das Messgerät verfolgen; jeder Messwert wird sofort gesichert</translation>
  </message>
  <message>
   <source>Follow no meter</source>
   <translation>Kein Messgerät verfolgen</translation>
  </message>
  <message>
   <source>The meter's leads go to the terminals of the store. Address: a host such as 192.0.2.7, a serial line such as COM3 or /dev/ttyUSB0, or a VISA resource name.</source>
   <translation>Die Messleitungen kommen an die Klemmen des Speichers. Adresse: ein Rechner wie 192.0.2.7, eine serielle Schnittstelle wie COM3 oder /dev/ttyUSB0 oder ein VISA-Name.</translation>
  </message>
  <message>
   <source>A multimeter that is asked (SCPI)</source>
   <translation>Ein Multimeter, das gefragt wird (SCPI)</translation>
  </message>
  <message>
   <source>A stream of numbers, one line each</source>
   <translation>Ein Strom von Zahlen, je Zeile eine</translation>
  </message>
  <message>
   <source>Address</source>
   <translation>Adresse</translation>
  </message>
  <message>
   <source>A reading every</source>
   <translation>Ein Messwert alle</translation>
  </message>
  <message>
   <source>Asked with</source>
   <translation>Gefragt mit</translation>
  </message>
  <message>
   <source>Baud rate</source>
   <translation>Baudrate</translation>
  </message>
  <message>
   <source>A reading every {found} is out of range; allowed is {low} to {high}.</source>
   <translation>Ein Messwert alle {found} liegt außerhalb des Bereichs; erlaubt ist {low} bis {high}.</translation>
  </message>
  <message>
   <source>The baud rate is “{found}”; a usual one is {usual}.</source>
   <translation>Die Baudrate ist „{found}“; üblich ist {usual}.</translation>
  </message>
  <message>
   <source>Nothing that is sold suits this place.</source>
   <translation>Nichts, was es zu kaufen gibt, passt zu diesem Punkt.</translation>
  </message>
  <message>
   <source>A click takes it.</source>
   <translation>Ein Klick übernimmt ihn.</translation>
  </message>
  <message>
   <source>How does the panel work?</source>
   <translation>Wie arbeitet das Modul?</translation>
  </message>
  <message>
   <source>   under</source>
   <translation>   unter</translation>
  </message>
  <message>
   <source>W/m²</source>
   <translation>W/m²</translation>
  </message>
  <message>
   <source>µA/cm²</source>
   <translation>µA/cm²</translation>
  </message>
  <message>
   <source>Panel</source>
   <translation>Modul</translation>
  </message>
  <message>
   <source>curve</source>
   <translation>Kennlinie</translation>
  </message>
  <message>
   <source>charger</source>
   <translation>Laderegler</translation>
  </message>
  <message>
   <source>sources</source>
   <translation>Quellen</translation>
  </message>
  <message>
   <source>Nothing to show because no light reaches the panel.</source>
   <translation>Nichts zu zeigen, weil kein Licht das Modul erreicht.</translation>
  </message>
  <message>
   <source>power, dashed</source>
   <translation>Leistung, gestrichelt</translation>
  </message>
  <message>
   <source>Panel current in A and power in W against voltage in V</source>
   <translation>Modulstrom in A und Leistung in W über der Spannung in V</translation>
  </message>
  <message>
   <source>current, solid</source>
   <translation>Strom, durchgezogen</translation>
  </message>
  <message>
   <source>As in the design, or as logged</source>
   <translation>Wie im Entwurf oder wie aufgezeichnet</translation>
  </message>
  <message>
   <source>Steady, known</source>
   <translation>Gleichmäßig, bekannt</translation>
  </message>
  <message>
   <source>As the readings say</source>
   <translation>Wie die Ablesungen sagen</translation>
  </message>
  <message>
   <source>The device was on</source>
   <translation>Das Gerät war an</translation>
  </message>
  <message>
   <source>The device was off</source>
   <translation>Das Gerät war aus</translation>
  </message>
  <message>
   <source>Empty a supercapacitor or a cell only through a load that it is made for; short circuits burn.</source>
   <translation>Einen Superkondensator oder eine Zelle nur über eine Last entladen, für die sie gemacht sind; Kurzschlüsse verbrennen.</translation>
  </message>
  <message>
   <source>Conditions of {name}</source>
   <translation>Bedingungen von {name}</translation>
  </message>
  <message>
   <source>Connected</source>
   <translation>Eingeschaltet</translation>
  </message>
  <message>
   <source>At the first reading</source>
   <translation>Bei der ersten Ablesung</translation>
  </message>
  <message>
   <source>Begins on</source>
   <translation>Beginnt am</translation>
  </message>
  <message>
   <source>Logged months after the others: tell what has aged</source>
   <translation>Monate nach den anderen aufgezeichnet: sagen, was gealtert ist</translation>
  </message>
  <message>
   <source>Later runs were logged with the same meters</source>
   <translation>Spätere Messläufe mit denselben Messgeräten</translation>
  </message>
  <message>
   <source>Compare under these conditions</source>
   <translation>Unter diesen Bedingungen vergleichen</translation>
  </message>
  <message>
   <source>Illuminance known to, per cent</source>
   <translation>Beleuchtungsstärke bekannt auf, Prozent</translation>
  </message>
  <message>
   <source>Current known to, per cent</source>
   <translation>Strom bekannt auf, Prozent</translation>
  </message>
  <message>
   <source>Hour of the day at which it begins</source>
   <translation>Stunde des Tages, zu der sie beginnt</translation>
  </message>
  <message>
   <source>The log has dates.</source>
   <translation>Der Messlauf hat Datumsangaben.</translation>
  </message>
  <message>
   <source>Allowed is above 0 and up to {most}.</source>
   <translation>Erlaubt ist über 0 bis {most}.</translation>
  </message>
  <message>
   <source>Run on show</source>
   <translation>Gezeigter Messlauf</translation>
  </message>
  <message>
   <source>Add…</source>
   <translation>Hinzufügen…</translation>
  </message>
  <message>
   <source>Add another run of the same device; all are fitted together</source>
   <translation>Einen weiteren Messlauf desselben Geräts hinzufügen; alle werden gemeinsam angepasst</translation>
  </message>
  <message>
   <source>Leave this run out; its file stays</source>
   <translation>Diesen Messlauf weglassen; seine Datei bleibt</translation>
  </message>
  <message>
   <source>Conditions…</source>
   <translation>Bedingungen…</translation>
  </message>
  <message>
   <source>Light, load and beginning, where they were not as designed</source>
   <translation>Licht, Last und Beginn, wo sie nicht wie entworfen waren</translation>
  </message>
  <message>
   <source>{n}. {name}, later</source>
   <translation>{n}. {name}, später</translation>
  </message>
  <message>
   <source>{n}. {name}</source>
   <translation>{n}. {name}</translation>
  </message>
  <message>
   <source>How sure?</source>
   <translation>Wie sicher?</translation>
  </message>
  <message>
   <source>built devices</source>
   <translation>gebaute Geräte</translation>
  </message>
  <message>
   <source>tolerances</source>
   <translation>Toleranzen</translation>
  </message>
  <message>
   <source>{share} of devices aged {age} are at least marginal</source>
   <translation>Alter {age}: {share} der Geräte mindestens knapp</translation>
  </message>
  <message>
   <source>Tightest margin divided by the required one</source>
   <translation>Kleinster Sicherheitsfaktor, geteilt durch den verlangten</translation>
  </message>
  <message>
   <source>asked for</source>
   <translation>Soll</translation>
  </message>
  <message>
   <source>Time to ready</source>
   <translation>Bis betriebsbereit</translation>
  </message>
  <message>
   <source>Usual tolerances</source>
   <translation>Übliche Toleranzen</translation>
  </message>
  <message>
   <source>Go back to the tolerances that are usual for such parts</source>
   <translation>Zurück zu den Toleranzen, die bei solchen Teilen üblich sind</translation>
  </message>
  <message>
   <source>{share} of new devices are at least marginal</source>
   <translation>{share} der neuen Geräte mindestens knapp</translation>
  </message>
  <message>
   <source>1 year</source>
   <translation>1 Jahr</translation>
  </message>
  <message>
   <source>{n} years</source>
   <translation>{n} Jahre</translation>
  </message>
  <message>
   <source>{share} of devices aged {age} run</source>
   <translation>Alter {age}: {share} der Geräte laufen</translation>
  </message>
  <message>
   <source>After </source>
   <translation>Mit </translation>
  </message>
  <message>
   <source>Age to compare with, years</source>
   <translation>Vergleichsalter in Jahren</translation>
  </message>
  <message>
   <source>run</source>
   <translation>laufen</translation>
  </message>
  <message>
   <source>at least marginal</source>
   <translation>mind. knapp</translation>
  </message>
  <message>
   <source>New</source>
   <comment>units</comment>
   <translation>Neu</translation>
  </message>
  <message>
   <source>{share} of new devices run</source>
   <translation>{share} der neuen Geräte laufen</translation>
  </message>
  <message>
   <source> year</source>
   <translation> Jahr</translation>
  </message>
  <message>
   <source> years</source>
   <translation> Jahren</translation>
  </message>
  <message>
   <source>Energy?</source>
   <translation>Energie?</translation>
  </message>
  <message>
   <source>Where would it work?</source>
   <translation>Wo würde es laufen?</translation>
  </message>
  <message>
   <source>Where else?</source>
   <translation>Einsatzbereich</translation>
  </message>
  <message>
   <source>The panel?</source>
   <translation>Das Modul?</translation>
  </message>
  <message>
   <source>Match a measurement?</source>
   <translation>Passt zur Messung?</translation>
  </message>
  <message>
   <source>Measurement?</source>
   <translation>Messung?</translation>
  </message>
  <message>
   <source>What does the year bring?</source>
   <translation>Was bringt das Jahr?</translation>
  </message>
  <message>
   <source>The year?</source>
   <translation>Das Jahr?</translation>
  </message>
  <message>
   <source>{question} (Ctrl+{n}, Esc closes)</source>
   <translation>{question} (Strg+{n}, Esc schließt)</translation>
  </message>
  <message>
   <source>{what}. Ctrl+{n} opens it, Esc closes it.</source>
   <translation>{what}. Strg+{n} öffnet, Esc schließt.</translation>
  </message>
  <message>
   <source>Legend: plain green runs, amber stripes marginal, red dots falls short</source>
   <translation>Legende: glattes Grün läuft, gelbe Streifen knapp, rote Punkte reicht nicht</translation>
  </message>
  <message>
   <source>Quantity across the map</source>
   <translation>Waagrechte Größe der Karte</translation>
  </message>
  <message>
   <source>Quantity up the map</source>
   <translation>Senkrechte Größe der Karte</translation>
  </message>
  <message>
   <source>margin 1</source>
   <translation>Faktor 1</translation>
  </message>
  <message>
   <source>required margin {margin}</source>
   <translation>verlangter Faktor {margin}</translation>
  </message>
  <message>
   <source>{label}, logarithmic</source>
   <translation>{label}, logarithmisch</translation>
  </message>
  <message>
   <source>Map of verdicts; arrow keys move the present design, Enter takes the nearest build</source>
   <translation>Karte der Urteile; Pfeiltasten bewegen den jetzigen Entwurf, die Eingabetaste übernimmt den nächsten Aufbau</translation>
  </message>
  <message>
   <source>What varies</source>
   <translation>Was streut</translation>
  </message>
  <message>
   <source>Influence</source>
   <translation>Einfluss</translation>
  </message>
  <message>
   <source>A tolerance takes 0 {unit} or more.</source>
   <translation>Für eine Toleranz zulässig ist 0 {unit} oder mehr.</translation>
  </message>
  <message>
   <source>{label} ±{amount}</source>
   <translation>{label} ±{amount}</translation>
  </message>
  <message>
   <source>Tolerances; type to change the chosen one</source>
   <translation>Toleranzen; Tippen ändert die gewählte</translation>
  </message>
  <message>
   <source>A tolerance takes 0 to {most} %.</source>
   <translation>Für eine Toleranz zulässig ist 0 bis {most} %.</translation>
  </message>
  <message>
   <source>{label} ±{amount}; changed from what is usual</source>
   <translation>{label} ±{amount}; abweichend vom Üblichen</translation>
  </message>
  <message>
   <source>months</source>
   <translation>Monate</translation>
  </message>
  <message>
   <source>hours</source>
   <translation>Stunden</translation>
  </message>
  <message>
   <source>to {value}</source>
   <translation>bis {value}</translation>
  </message>
  <message>
   <source>Light by day and hour, lx</source>
   <translation>Licht nach Tag und Stunde, lx</translation>
  </message>
  <message>
   <source>Store by day and hour, V</source>
   <translation>Speicher nach Tag und Stunde, V</translation>
  </message>
  <message>
   <source>Energy of each month, J</source>
   <translation>Energie jedes Monats, J</translation>
  </message>
  <message>
   <source>of the day</source>
   <translation>am Tag</translation>
  </message>
  <message>
   <source>thrown away, store full</source>
   <translation>verworfen, Speicher voll</translation>
  </message>
  <message>
   <source>used</source>
   <translation>verbraucht</translation>
  </message>
  <message>
   <source>over</source>
   <translation>darüber</translation>
  </message>
  <message>
   <source>Take the curve of the panel's voltage. Where the sheet draws a curve for each output voltage, write that voltage into every row; else leave it empty.</source>
   <translation>Die Kurve für die Spannung des Moduls nehmen. Wo das Blatt für jede Ausgangsspannung eine Kurve zeichnet, diese Spannung in jede Zeile schreiben; sonst leer lassen.</translation>
  </message>
  <message>
   <source>Efficiency of the converter – Gloaming</source>
   <translation>Wirkungsgrad des Wandlers – Gloaming</translation>
  </message>
  <message>
   <source>What the sheet says</source>
   <translation>Was das Datenblatt sagt</translation>
  </message>
  <message>
   <source>Share that is passed on, over input power</source>
   <translation>Weitergegebener Anteil über der Eingangsleistung</translation>
  </message>
  <message>
   <source>{fault}.</source>
   <translation>{fault}.</translation>
  </message>
  <message>
   <source>Use no table</source>
   <translation>Keine Tabelle verwenden</translation>
  </message>
  <message>
   <source>Use this table</source>
   <translation>Diese Tabelle verwenden</translation>
  </message>
  <message>
   <source>Efficiency row {n}: {label}</source>
   <translation>Wirkungsgradzeile {n}: {label}</translation>
  </message>
  <message>
   <source>Remove efficiency row {n}</source>
   <translation>Wirkungsgradzeile {n} entfernen</translation>
  </message>
  <message>
   <source>Add efficiency row</source>
   <translation>Wirkungsgradzeile hinzufügen</translation>
  </message>
  <message>
   <source>{text} is not a whole number.</source>
   <translation>{text} ist keine ganze Zahl.</translation>
  </message>
  <message>
   <source>{fault}

The scenario is still open. Save it under another name, and start the program again.</source>
   <translation>{fault}

Das Szenario ist noch offen. Unter anderem Namen sichern und das Programm neu starten.</translation>
  </message>
  <message>
   <source>Opens the details of this part: every value that has no slider.</source>
   <translation>Öffnet die Einzelheiten dieses Teils: jeden Wert ohne Schieber.</translation>
  </message>
  <message>
   <source>Efficiency table…</source>
   <translation>Wirkungsgradtabelle…</translation>
  </message>
  <message>
   <source>Type the efficiencies of the converter's data sheet</source>
   <translation>Die Wirkungsgrade aus dem Datenblatt des Wandlers eintippen</translation>
  </message>
  <message>
   <source>Weather (*.epw *.csv)</source>
   <translation>Wetter (*.epw *.csv)</translation>
  </message>
  <message>
   <source>Look for a file…</source>
   <translation>Datei suchen…</translation>
  </message>
  <message>
   <source>Open a weather file</source>
   <translation>Wetterdatei öffnen</translation>
  </message>
  <message>
   <source>Months…</source>
   <translation>Monate…</translation>
  </message>
  <message>
   <source>Type skies and temperatures of the twelve months</source>
   <translation>Himmel und Temperaturen der zwölf Monate eingeben</translation>
  </message>
  <message>
   <source>What the phase draws</source>
   <translation>Was die Phase aufnimmt</translation>
  </message>
  <message>
   <source>not set</source>
   <translation>ohne</translation>
  </message>
  <message>
   <source>Lit period {n}</source>
   <translation>Lichtzeit {n}</translation>
  </message>
  <message>
   <source>Add lit period</source>
   <translation>Lichtzeit hinzufügen</translation>
  </message>
  <message>
   <source>Remove lit period {n}</source>
   <translation>Lichtzeit {n} entfernen</translation>
  </message>
  <message>
   <source>Lamps {n}</source>
   <translation>Lampen {n}</translation>
  </message>
  <message>
   <source>Add lamps</source>
   <translation>Lampen hinzufügen</translation>
  </message>
  <message>
   <source>Remove lamps {n}</source>
   <translation>Lampen {n} entfernen</translation>
  </message>
  <message>
   <source>Holidays {n}</source>
   <translation>Freie Tage {n}</translation>
  </message>
  <message>
   <source>Add holidays</source>
   <translation>Freie Tage hinzufügen</translation>
  </message>
  <message>
   <source>Remove holidays {n}</source>
   <translation>Freie Tage {n} entfernen</translation>
  </message>
  <message>
   <source>Operation {n}</source>
   <translation>Vorgang {n}</translation>
  </message>
  <message>
   <source>Add operation</source>
   <translation>Vorgang hinzufügen</translation>
  </message>
  <message>
   <source>Remove operation {n}</source>
   <translation>Vorgang {n} entfernen</translation>
  </message>
  <message>
   <source>Place {n}</source>
   <translation>Ort {n}</translation>
  </message>
  <message>
   <source>Add place</source>
   <translation>Ort hinzufügen</translation>
  </message>
  <message>
   <source>Remove place {n}</source>
   <translation>Ort {n} entfernen</translation>
  </message>
  <message>
   <source>Phase {n}</source>
   <translation>Phase {n}</translation>
  </message>
  <message>
   <source>Add phase</source>
   <translation>Phase hinzufügen</translation>
  </message>
  <message>
   <source>Remove phase {n}</source>
   <translation>Phase {n} entfernen</translation>
  </message>
  <message>
   <source>{title}, kind</source>
   <translation>{title}, Art</translation>
  </message>
  <message>
   <source>Adds one more below the last; undo takes it back</source>
   <translation>Fügt unter dem letzten eines hinzu; Rückgängig nimmt es zurück</translation>
  </message>
  <message>
   <source>From a capture…</source>
   <translation>Aus einer Aufzeichnung…</translation>
  </message>
  <message>
   <source>Make an operation of a captured load current</source>
   <translation>Aus einem aufgezeichneten Laststrom einen Vorgang machen</translation>
  </message>
  <message>
   <source>Data sheet…</source>
   <translation>Datenblatt…</translation>
  </message>
  <message>
   <source>Type what the panel's data sheet says, and see its curves</source>
   <translation>Eintippen, was das Datenblatt des Moduls sagt, und seine Kennlinien sehen</translation>
  </message>
  <message>
   <source>Guide – Gloaming</source>
   <translation>Wegweiser – Gloaming</translation>
  </message>
  <message>
   <source>Back</source>
   <translation>Zurück</translation>
  </message>
  <message>
   <source>Question {n} of {count}</source>
   <translation>Frage {n} von {count}</translation>
  </message>
  <message>
   <source>The answer</source>
   <translation>Die Antwort</translation>
  </message>
  <message>
   <source>Show the answer</source>
   <translation>Antwort zeigen</translation>
  </message>
  <message>
   <source>Next</source>
   <translation>Weiter</translation>
  </message>
  <message>
   <source>Saturdays too</source>
   <translation>Auch samstags</translation>
  </message>
  <message>
   <source>Sundays too</source>
   <translation>Auch sonntags</translation>
  </message>
  <message>
   <source>Lit from</source>
   <translation>Hell von</translation>
  </message>
  <message>
   <source>Lit until</source>
   <translation>Hell bis</translation>
  </message>
  <message>
   <source>The light must go off later than it comes on, between 0 and 24 h.</source>
   <translation>Das Licht muss später ausgehen, als es angeht, zwischen 0 und 24 h.</translation>
  </message>
  <message>
   <source>What the meter read</source>
   <translation>Was das Luxmeter zeigte</translation>
  </message>
  <message>
   <source>at midday, under a dull sky, in</source>
   <translation>mittags, bei trübem Himmel, im</translation>
  </message>
  <message>
   <source>until</source>
   <translation>bis</translation>
  </message>
  <message>
   <source>Between −{most}° and {most}°: nearer to a pole the guide does not judge.</source>
   <translation>Zwischen −{most}° und {most}°: Näher an einem Pol urteilt der Wegweiser nicht.</translation>
  </message>
  <message>
   <source>Season</source>
   <translation>Jahreszeit</translation>
  </message>
  <message>
   <source>Facing</source>
   <translation>Ausrichtung</translation>
  </message>
  <message>
   <source>Job</source>
   <translation>Aufgabe</translation>
  </message>
  <message>
   <source>Battery</source>
   <translation>Batterie</translation>
  </message>
  <message>
   <source>It lasts</source>
   <translation>Sie reicht</translation>
  </message>
  <message>
   <source>How often</source>
   <translation>Wie oft</translation>
  </message>
  <message>
   <source>When</source>
   <translation>Wann</translation>
  </message>
  <message>
   <source>Matters</source>
   <translation>Wichtig</translation>
  </message>
  <message>
   <source>What was assumed</source>
   <translation>Was angenommen wurde</translation>
  </message>
  <message>
   <source>One moment</source>
   <translation>Einen Moment</translation>
  </message>
  <message>
   <source>Trying panels and stores for this place…</source>
   <translation>Module und Speicher für diesen Ort werden erprobt…</translation>
  </message>
  <message>
   <source>No answer</source>
   <translation>Keine Antwort</translation>
  </message>
  <message>
   <source>No answer yet</source>
   <translation>Noch keine Antwort</translation>
  </message>
  <message>
   <source>Change an answer</source>
   <translation>Eine Antwort ändern</translation>
  </message>
  <message>
   <source>Change the answer: {question}, {answer}</source>
   <translation>Antwort ändern: {question}, {answer}</translation>
  </message>
  <message>
   <source>Cautions for this scenario</source>
   <translation>Vorsicht bei diesem Szenario</translation>
  </message>
  <message>
   <source>Read the cautions in full</source>
   <translation>Die Hinweise ganz lesen</translation>
  </message>
  <message>
   <source>Caution: {titles}</source>
   <translation>Vorsicht: {titles}</translation>
  </message>
  <message>
   <source>{text}. Press to read.</source>
   <translation>{text}. Zum Lesen drücken.</translation>
  </message>
  <message>
   <source>Every quantity</source>
   <translation>Alle Größen</translation>
  </message>
  <message>
   <source>Keyboard</source>
   <translation>Tastatur</translation>
  </message>
  <message>
   <source>Cautions</source>
   <translation>Warnhinweise</translation>
  </message>
  <message>
   <source>Model note</source>
   <translation>Modellbeschreibung</translation>
  </message>
  <message>
   <source>Stand</source>
   <comment>help page</comment>
   <translation>Stand</translation>
  </message>
  <message>
   <source>Data and sources</source>
   <translation>Daten und Quellen</translation>
  </message>
  <message>
   <source>About</source>
   <translation>Über</translation>
  </message>
  <message>
   <source>Licences</source>
   <translation>Lizenzen</translation>
  </message>
  <message>
   <source>Help – Gloaming</source>
   <translation>Hilfe – Gloaming</translation>
  </message>
  <message>
   <source>Pages of the help</source>
   <translation>Seiten der Hilfe</translation>
  </message>
  <message>
   <source>Text of the help</source>
   <translation>Text der Hilfe</translation>
  </message>
  <message>
   <source>Find in this page</source>
   <translation>Auf dieser Seite suchen</translation>
  </message>
  <message>
   <source>not on this page</source>
   <translation>nicht auf dieser Seite</translation>
  </message>
  <message>
   <source>Estimates are planning aids: local codes, the part's data sheet and a qualified person decide.</source>
   <translation>Abschätzungen sind Planungshilfen: Örtliche Vorschriften, das Datenblatt des Teils und eine Fachkraft entscheiden.</translation>
  </message>
  <message>
   <source>{low} to {high}</source>
   <translation>{low} bis {high}</translation>
  </message>
  <message>
   <source>What the verdict rests on</source>
   <translation>Worauf das Urteil beruht</translation>
  </message>
  <message>
   <source>Shows whether a small electronic device can run on indoor light, and with which panels, store and duty cycle.</source>
   <translation>Zeigt, ob ein kleines elektronisches Gerät mit Innenraumlicht auskommt, und mit welchen Modulen, welchem Speicher und welchem Tastverhältnis.</translation>
  </message>
  <message>
   <source>MIT licence. The data that comes with it keeps its own licences; see Data and sources.</source>
   <translation>MIT-Lizenz. Die mitgelieferten Daten behalten ihre eigenen Lizenzen; siehe „Daten und Quellen“.</translation>
  </message>
  <message>
   <source>Scenario files: {format}, version {version}. The model is described, with its sources and its limits, in the model note.</source>
   <translation>Szenariodateien: {format}, Version {version}. Das Modell ist mit seinen Quellen und Grenzen in der Modellbeschreibung beschrieben.</translation>
  </message>
  <message>
   <source>The window is made to be used with the keyboard alone; the page Keyboard lists how. Controls, figures and pictures have names for screen readers. There are light, dark and high contrast themes, sizes up to 200 %, and no meaning by colour alone. A sheet as a web page can be read aloud with its headings and tables; a sheet as PDF has no tags for that yet.</source>
   <translation>Das Fenster lässt sich allein mit der Tastatur bedienen; die Seite Tastatur sagt wie. Bedienelemente, Zahlen und Bilder haben Namen für Bildschirmleser. Es gibt ein helles, ein dunkles und ein kontrastreiches Aussehen, Größen bis 200 % und keine Bedeutung durch Farbe allein. Ein Blatt als Webseite lässt sich mit Überschriften und Tabellen vorlesen; ein Blatt als PDF hat dafür noch keine Marken.</translation>
  </message>
  <message>
   <source>On a slider</source>
   <translation>An einem Regler</translation>
  </message>
  <message>
   <source>In a number</source>
   <translation>In einer Zahl</translation>
  </message>
  <message>
   <source>On the trace</source>
   <translation>Im Verlauf</translation>
  </message>
  <message>
   <source>In the guide</source>
   <translation>Im Wegweiser</translation>
  </message>
  <message>
   <source>Typical</source>
   <translation>Typisch</translation>
  </message>
  <message>
   <source>Where to read it</source>
   <translation>Wo es steht</translation>
  </message>
  <message>
   <source>How this is known</source>
   <translation>Woher man das weiß</translation>
  </message>
  <message>
   <source>Accessibility</source>
   <translation>Barrierefreiheit</translation>
  </message>
  <message>
   <source>Libraries</source>
   <translation>Bibliotheken</translation>
  </message>
  <message>
   <source>It takes</source>
   <translation>Möglich</translation>
  </message>
  <message>
   <source>Nothing here calls for a caution.</source>
   <translation>Hier ist nichts, das zur Vorsicht mahnt.</translation>
  </message>
  <message>
   <source>Anywhere</source>
   <translation>Überall</translation>
  </message>
  <message>
   <source>one stop down or up</source>
   <translation>eine Raste abwärts oder aufwärts</translation>
  </message>
  <message>
   <source>Page Up, Page Down</source>
   <translation>Bild auf, Bild ab</translation>
  </message>
  <message>
   <source>several stops</source>
   <translation>mehrere Rasten</translation>
  </message>
  <message>
   <source>Home, End</source>
   <translation>Pos1, Ende</translation>
  </message>
  <message>
   <source>first and last stop</source>
   <translation>erste und letzte Raste</translation>
  </message>
  <message>
   <source>Delete</source>
   <comment>key</comment>
   <translation>Entf</translation>
  </message>
  <message>
   <source>back to the starting value</source>
   <translation>zurück zum Anfangswert</translation>
  </message>
  <message>
   <source>one stop up or down</source>
   <translation>eine Raste aufwärts oder abwärts</translation>
  </message>
  <message>
   <source>Enter</source>
   <comment>key</comment>
   <translation>Enter</translation>
  </message>
  <message>
   <source>take the number; 470u, 1,5 F and 90 min are understood</source>
   <translation>die Zahl übernehmen; 470u, 1,5 F und 90 min werden verstanden</translation>
  </message>
  <message>
   <source>Esc</source>
   <comment>key</comment>
   <translation>Esc</translation>
  </message>
  <message>
   <source>take back what was typed</source>
   <translation>das Getippte zurücknehmen</translation>
  </message>
  <message>
   <source>move the time cursor</source>
   <translation>den Zeitcursor bewegen</translation>
  </message>
  <message>
   <source>hold a mark at the cursor to measure from it</source>
   <translation>am Zeitstrich eine Marke setzen und von ihr aus messen</translation>
  </message>
  <message>
   <source>zoom in and out; with Ctrl in volts</source>
   <translation>vergrößern und verkleinern; mit Strg in Volt</translation>
  </message>
  <message>
   <source>↑ ↓, Page Up, Page Down</source>
   <translation>↑ ↓, Bild auf, Bild ab</translation>
  </message>
  <message>
   <source>move what is zoomed</source>
   <translation>den vergrößerten Ausschnitt verschieben</translation>
  </message>
  <message>
   <source>Home</source>
   <comment>key</comment>
   <translation>Pos1</translation>
  </message>
  <message>
   <source>show everything</source>
   <translation>alles zeigen</translation>
  </message>
  <message>
   <source>hide cursor and mark</source>
   <translation>Zeitstrich und Marke ausblenden</translation>
  </message>
  <message>
   <source>Shift and drag</source>
   <translation>Umschalt und ziehen</translation>
  </message>
  <message>
   <source>draw a box to zoom into</source>
   <translation>einen Rahmen aufziehen und hineinvergrößern</translation>
  </message>
  <message>
   <source>Menu, or the right button</source>
   <translation>Menütaste oder rechte Maustaste</translation>
  </message>
  <message>
   <source>measure, zoom, export</source>
   <translation>messen, vergrößern, exportieren</translation>
  </message>
  <message>
   <source>choose an answer</source>
   <translation>eine Antwort wählen</translation>
  </message>
  <message>
   <source>next question</source>
   <translation>nächste Frage</translation>
  </message>
  <message>
   <source>Alt+←</source>
   <translation>Alt+←</translation>
  </message>
  <message>
   <source>previous question</source>
   <translation>vorige Frage</translation>
  </message>
  <message>
   <source>close the guide</source>
   <translation>den Wegweiser schließen</translation>
  </message>
  <message>
   <source>Put the focus on a slider, a number or a choice: this pane says what it is, what is typical, and where a data sheet states it.</source>
   <translation>Einen Regler, eine Zahl oder eine Auswahl in den Fokus nehmen: Hier steht dann, was es ist, was typisch ist und wo es im Datenblatt zu finden ist.</translation>
  </message>
  <message>
   <source>Help</source>
   <translation>Hilfe</translation>
  </message>
  <message>
   <source>All of the help</source>
   <translation>Die ganze Hilfe</translation>
  </message>
  <message>
   <source>Close the help</source>
   <translation>Hilfe schließen</translation>
  </message>
  <message>
   <source>Close the help (Esc)</source>
   <translation>Hilfe schließen (Esc)</translation>
  </message>
  <message>
   <source>The open-circuit voltage of the store over time. The ground is bright while light falls; dashed lines are the voltages at which charging ends and the device connects and cuts off. Where pulses crowd, the band below the line shows how far they reach down. A triangle marks a connect or a cut-off. Left and right move the cursor, M holds a second one, plus and minus zoom, Home shows all, the menu key exports.</source>
   <translation>Die Leerlaufspannung des Speichers über der Zeit. Der Grund ist hell, solange Licht fällt; gestrichelte Linien sind die Spannungen, bei denen das Laden endet und das Gerät ein- und ausgeschaltet wird. Wo Pulse dicht liegen, zeigt das Band unter der Linie, wie weit sie hinabreichen. Ein Dreieck markiert Ein- oder Ausschalten. Links und Rechts bewegen den Zeiger, M hält einen zweiten, Plus und Minus zoomen, Pos1 zeigt alles, die Menütaste exportiert.</translation>
  </message>
  <message>
   <source>The voltage at the terminals while the operation runs that pulls it down most, at the lowest store voltage. The ESR step is lost across the series resistance at once; the rest is what the store itself discharges. The dashed line is the store's own voltage.</source>
   <translation>Die Klemmenspannung, während der Vorgang läuft, der sie am weitesten senkt, bei tiefster Speicherspannung. Der ESR-Sprung geht sofort am Serienwiderstand verloren; der Rest ist die Entladung des Speichers selbst. Die gestrichelte Linie ist die Spannung des Speichers.</translation>
  </message>
  <message>
   <source>Each bar takes away what ends there, from the panel's best to what reaches the device. Up and down walk the bars, Enter goes to the value that governs one.</source>
   <translation>Jeder Balken nimmt weg, was dort endet, vom Besten des Moduls bis zu dem, was das Gerät erreicht. Auf und Ab gehen durch die Balken, Eingabe führt zum bestimmenden Wert.</translation>
  </message>
  <message>
   <source>Where it would work</source>
   <translation>Wo es ginge</translation>
  </message>
  <message>
   <source>The verdict over two quantities, all others as they are. Full ground runs, hatched ground is marginal, empty ground falls short; the cross is this design. Arrow keys walk the map, Enter takes the place over.</source>
   <translation>Das Urteil über zwei Größen, alle anderen wie sie sind. Voller Grund läuft, schraffierter ist knapp, leerer reicht nicht; das Kreuz ist dieser Entwurf. Pfeiltasten gehen über die Karte, Eingabe übernimmt die Stelle.</translation>
  </message>
  <message>
   <source>How many devices</source>
   <translation>Wie viele Geräte</translation>
  </message>
  <message>
   <source>How many built devices reach each value, as their parts scatter within tolerance. Bars are new devices, the line is those of the age that is chosen.</source>
   <translation>Wie viele gebaute Geräte jeden Wert erreichen, wenn ihre Teile in der Toleranz streuen. Balken sind neue Geräte, die Linie die des gewählten Alters.</translation>
  </message>
  <message>
   <source>The panel's curve</source>
   <translation>Die Kurve des Moduls</translation>
  </message>
  <message>
   <source>Current over voltage in the present light. Marked are the maximum power point, the point at which the charger holds the panel, and the open-circuit voltage.</source>
   <translation>Strom über Spannung im jetzigen Licht. Markiert sind der Punkt größter Leistung, der Punkt, auf dem der Laderegler das Modul hält, und die Leerlaufspannung.</translation>
  </message>
  <message>
   <source>The charger's curve</source>
   <translation>Die Kurve des Ladereglers</translation>
  </message>
  <message>
   <source>What the charger passes on over the store's voltage, with its cold start.</source>
   <translation>Was der Laderegler über der Speicherspannung weitergibt, mit Kaltstart.</translation>
  </message>
  <message>
   <source>Forecast and measurement</source>
   <translation>Vorhersage und Messung</translation>
  </message>
  <message>
   <source>The measured voltage over the forecast one, and below it how far they are apart.</source>
   <translation>Die gemessene Spannung über der vorhergesagten, darunter, wie weit sie auseinanderliegen.</translation>
  </message>
  <message>
   <source>Four pictures over one axis of days: the store's voltage from the lowest to the highest of each day, the light and the store hour by hour, and the energy of each month. Hatched red is off. Left and right move the day, with Shift a week, Home goes to the lowest.</source>
   <translation>Vier Bilder über einer Achse von Tagen: die Speicherspannung von der tiefsten bis zur höchsten jedes Tages, Licht und Speicher Stunde für Stunde und die Energie jedes Monats. Rot schraffiert ist aus. Links und Rechts bewegen den Tag, mit Umschalt eine Woche, Pos1 geht zum tiefsten.</translation>
  </message>
  <message>
   <source>Traces over each other</source>
   <translation>Verläufe übereinander</translation>
  </message>
  <message>
   <source>The store voltage of each design, numbered as in the table below.</source>
   <translation>Die Speicherspannung jedes Entwurfs, nummeriert wie in der Tabelle darunter.</translation>
  </message>
  <message>
   <source>Hours of light</source>
   <translation>Lichtzeiten</translation>
  </message>
  <message>
   <source>Lit period</source>
   <translation>Lichtzeit</translation>
  </message>
  <message>
   <source>Another place</source>
   <translation>Anderer Ort</translation>
  </message>
  <message>
   <source>Month of a year of daylight</source>
   <translation>Monat eines Jahres Tageslicht</translation>
  </message>
  <message>
   <source>One reading that sets the daylight</source>
   <translation>Eine Ablesung, die das Tageslicht festlegt</translation>
  </message>
  <message>
   <source>Lamps beside the daylight</source>
   <translation>Lampen neben dem Tageslicht</translation>
  </message>
  <message>
   <source>Data-sheet line of a panel</source>
   <translation>Datenblattzeile eines Moduls</translation>
  </message>
  <message>
   <source>Efficiency row of a converter</source>
   <translation>Wirkungsgradzeile eines Wandlers</translation>
  </message>
  <message>
   <source>Operation</source>
   <translation>Vorgang</translation>
  </message>
  <message>
   <source>Phase</source>
   <translation>Phase</translation>
  </message>
  <message>
   <source>What must be reached</source>
   <translation>Was erreicht werden muss</translation>
  </message>
  <message>
   <source>Part of one's own</source>
   <translation>Eigenes Bauteil</translation>
  </message>
  <message>
   <source>Measured value of a part</source>
   <translation>Gemessener Wert eines Bauteils</translation>
  </message>
  <message>
   <source>Kind of hours of light</source>
   <translation>Art der Lichtzeiten</translation>
  </message>
  <message>
   <source>Kind of charger</source>
   <translation>Art des Ladereglers</translation>
  </message>
  <message>
   <source>Kind of store</source>
   <translation>Art des Speichers</translation>
  </message>
  <message>
   <source>Kind of schedule</source>
   <translation>Art des Zeitplans</translation>
  </message>
  <message>
   <source>Tour</source>
   <translation>Rundgang</translation>
  </message>
  <message>
   <source>Tour, {place}: {title}. {text}</source>
   <translation>Rundgang, {place}: {title}. {text}</translation>
  </message>
  <message>
   <source>Skip the tour</source>
   <translation>Überspringen</translation>
  </message>
  <message>
   <source>Done</source>
   <translation>Fertig</translation>
  </message>
  <message>
   <source>l</source>
   <comment>letter of the light knob's label, for Alt</comment>
   <translation>l</translation>
  </message>
  <message>
   <source>p</source>
   <comment>letter of the panel knob's label, for Alt</comment>
   <translation>m</translation>
  </message>
  <message>
   <source>c</source>
   <comment>letter of the store knob's labels, for Alt</comment>
   <translation>k</translation>
  </message>
  <message>
   <source>d</source>
   <comment>letter of the pulse knob's label, for Alt</comment>
   <translation>p</translation>
  </message>
  <message>
   <source>Operation that the load slider changes</source>
   <translation>Vorgang, den der Schieber „Verbraucher“ ändert</translation>
  </message>
  <message>
   <source>Light and place</source>
   <translation>Licht und Ort</translation>
  </message>
  <message>
   <source>Panels and charger</source>
   <translation>Module und Laderegler</translation>
  </message>
  <message>
   <source>Load and operations</source>
   <translation>Verbraucher und Vorgänge</translation>
  </message>
  <message>
   <source>Kind</source>
   <translation>Art</translation>
  </message>
  <message>
   <source>Arrow keys move one step, digits go into the field, Delete or a double-click on the handle restores the start value.</source>
   <translation>Pfeiltasten gehen einen Schritt weiter, Ziffern kommen ins Feld, Entf oder ein Doppelklick auf den Griff stellt den Anfangswert wieder her.</translation>
  </message>
  <message>
   <source>Open a log…</source>
   <translation>Protokoll öffnen…</translation>
  </message>
  <message>
   <source>Take a measured light log from a file</source>
   <translation>Ein gemessenes Lichtprotokoll aus einer Datei nehmen</translation>
  </message>
  <message>
   <source>First rows…</source>
   <translation>Erste Zeilen…</translation>
  </message>
  <message>
   <source>Show how the file of the log is read</source>
   <translation>Zeigen, wie die Datei des Protokolls gelesen wird</translation>
  </message>
  <message>
   <source>Take what the meter reads in the dark off every reading</source>
   <translation>Die Anzeige im Dunkeln von jedem Messwert abziehen</translation>
  </message>
  <message>
   <source>Take {offset} off</source>
   <translation>{offset} abziehen</translation>
  </message>
  <message>
   <source>Open a light log</source>
   <translation>Lichtprotokoll öffnen</translation>
  </message>
  <message>
   <source>The readings of the log as they are. Else they are scaled to the level above.</source>
   <translation>Die Messwerte des Protokolls, wie sie sind. Sonst werden sie auf die Beleuchtungsstärke darüber skaliert.</translation>
  </message>
  <message>
   <source>The year as it was computed. Else all of it is scaled to the level above.</source>
   <translation>Das Jahr wie berechnet. Sonst wird alles auf den Wert oben skaliert.</translation>
  </message>
  <message>
   <source>As measured</source>
   <translation>Wie gemessen</translation>
  </message>
  <message>
   <source>The light is multiplied by this at every hour.</source>
   <translation>Das Licht wird zu jeder Stunde damit multipliziert.</translation>
  </message>
  <message>
   <source>As computed</source>
   <translation>Wie berechnet</translation>
  </message>
  <message>
   <source>Reading the light log…</source>
   <translation>Lichtprotokoll wird gelesen…</translation>
  </message>
  <message>
   <source>The reading of the light log was stopped.</source>
   <translation>Das Lesen des Lichtprotokolls wurde angehalten.</translation>
  </message>
  <message>
   <source>{file}[*] – Gloaming</source>
   <translation>{file}[*] – Gloaming</translation>
  </message>
  <message>
   <source>The file was changed elsewhere. File, Read again shows what it holds now.</source>
   <translation>Die Datei wurde anderswo geändert. „Datei, Neu einlesen“ zeigt, was sie jetzt enthält.</translation>
  </message>
  <message>
   <source>The file was deleted, moved or renamed. Saving writes it anew.</source>
   <translation>Die Datei wurde gelöscht, verschoben oder umbenannt. Speichern schreibt sie neu.</translation>
  </message>
  <message>
   <source>The scenario was not saved</source>
   <translation>Das Szenario wurde nicht gespeichert</translation>
  </message>
  <message>
   <source>As the &amp;system</source>
   <translation>Wie das S&amp;ystem</translation>
  </message>
  <message>
   <source>&amp;Light</source>
   <translation>&amp;Hell</translation>
  </message>
  <message>
   <source>&amp;Dark</source>
   <translation>&amp;Dunkel</translation>
  </message>
  <message>
   <source>&amp;High contrast</source>
   <translation>Hoher &amp;Kontrast</translation>
  </message>
  <message>
   <source>&amp;Edit</source>
   <translation>&amp;Bearbeiten</translation>
  </message>
  <message>
   <source>&amp;View</source>
   <translation>&amp;Ansicht</translation>
  </message>
  <message>
   <source>&amp;Help</source>
   <translation>&amp;Hilfe</translation>
  </message>
  <message>
   <source>Open &amp;example</source>
   <translation>&amp;Beispiel öffnen</translation>
  </message>
  <message>
   <source>Open &amp;recent</source>
   <translation>&amp;Zuletzt geöffnet</translation>
  </message>
  <message>
   <source>Si&amp;ze, from the next start</source>
   <translation>&amp;Größe, ab dem nächsten Start</translation>
  </message>
  <message>
   <source>Lan&amp;guage</source>
   <translation>&amp;Sprache</translation>
  </message>
  <message>
   <source>&amp;File</source>
   <translation>&amp;Datei</translation>
  </message>
  <message>
   <source>As the scree&amp;n asks</source>
   <translation>Wie es der &amp;Bildschirm verlangt</translation>
  </message>
  <message>
   <source>No file yet</source>
   <translation>Noch keine Datei</translation>
  </message>
  <message>
   <source>Something went wrong</source>
   <translation>Etwas ging schief</translation>
  </message>
  <message>
   <source>Copy details</source>
   <translation>Einzelheiten kopieren</translation>
  </message>
  <message>
   <source>Unsaved changes</source>
   <translation>Ungespeicherte Änderungen</translation>
  </message>
  <message>
   <source>“{name}” has changes that are not saved.</source>
   <translation>„{name}“ hat Änderungen, die nicht gespeichert sind.</translation>
  </message>
  <message>
   <source>Without saving, the changes are lost.</source>
   <translation>Ohne Speichern gehen die Änderungen verloren.</translation>
  </message>
  <message>
   <source>Unsaved work found</source>
   <translation>Ungespeicherte Arbeit gefunden</translation>
  </message>
  <message>
   <source>The program ended before this was saved:</source>
   <translation>Das Programm endete, bevor dies gespeichert war:</translation>
  </message>
  <message>
   <source>Restore</source>
   <translation>Wiederherstellen</translation>
  </message>
  <message>
   <source>Discard</source>
   <translation>Verwerfen</translation>
  </message>
  <message>
   <source>Later</source>
   <translation>Später</translation>
  </message>
  <message>
   <source>Older scenario file</source>
   <translation>Ältere Szenariodatei</translation>
  </message>
  <message>
   <source>{file} was written by an older version (format {version}).</source>
   <translation>{file} stammt aus einer älteren Version (Format {version}).</translation>
  </message>
  <message>
   <source>Saving it brings it to the present format; older programs then fail.</source>
   <translation>Speichern bringt die Datei auf das heutige Format; ältere Programme lesen sie dann nicht mehr.</translation>
  </message>
  <message>
   <source>Replace it</source>
   <translation>Ersetzen</translation>
  </message>
  <message>
   <source>A file from elsewhere</source>
   <translation>Eine Datei von anderswo</translation>
  </message>
  <message>
   <source>{scenario} wants to read {file}, which lies outside its own folder.</source>
   <translation>{scenario} will {file} lesen, das außerhalb seines Ordners liegt.</translation>
  </message>
  <message>
   <source>Agree only if you know where the scenario comes from.</source>
   <translation>Nur zustimmen, wenn die Herkunft des Szenarios bekannt ist.</translation>
  </message>
  <message>
   <source>Read it</source>
   <translation>Lesen</translation>
  </message>
  <message>
   <source>The file is gone</source>
   <translation>Die Datei ist fort</translation>
  </message>
  <message>
   <source>{file} was deleted, moved or renamed since it was opened.</source>
   <translation>{file} wurde seit dem Öffnen gelöscht, verschoben oder umbenannt.</translation>
  </message>
  <message>
   <source>The file has changed</source>
   <translation>Die Datei hat sich geändert</translation>
  </message>
  <message>
   <source>{file} was changed elsewhere since it was opened here.</source>
   <translation>{file} wurde seit dem Öffnen anderswo geändert.</translation>
  </message>
  <message>
   <source>Save as…</source>
   <translation>Speichern unter…</translation>
  </message>
  <message>
   <source>Keep as a study: name of the folder</source>
   <translation>Als Studie behalten: Name des Ordners</translation>
  </message>
  <message>
   <source>Delete a part</source>
   <translation>Bauteil löschen</translation>
  </message>
  <message>
   <source>“{name}” will be deleted from the shelf.</source>
   <translation>„{name}“ wird aus dem Regal gelöscht.</translation>
  </message>
  <message>
   <source>Designs that took it keep their copy.</source>
   <translation>Entwürfe, die es übernommen haben, behalten ihre Kopie.</translation>
  </message>
  <message>
   <source>Delete</source>
   <translation>Löschen</translation>
  </message>
  <message>
   <source>Import a part</source>
   <translation>Bauteil einlesen</translation>
  </message>
  <message>
   <source>Export the part</source>
   <translation>Bauteil ausgeben</translation>
  </message>
  <message>
   <source>It is written down in {file}.</source>
   <translation>Es ist in {file} festgehalten.</translation>
  </message>
  <message>
   <source>Save anew</source>
   <translation>Neu speichern</translation>
  </message>
  <message>
   <source>Keep mine</source>
   <translation>Meine behalten</translation>
  </message>
  <message>
   <source>Read it again</source>
   <translation>Neu einlesen</translation>
  </message>
  <message>
   <source>Keeping yours writes over what is there; reading it again drops your changes.</source>
   <translation>Die eigene Fassung überschreibt, was dort ist; neu einlesen verwirft die eigenen Änderungen.</translation>
  </message>
  <message>
   <source>Parts</source>
   <translation>Bauteile</translation>
  </message>
  <message>
   <source>All files</source>
   <translation>Alle Dateien</translation>
  </message>
  <message>
   <source>Scenarios</source>
   <translation>Szenarien</translation>
  </message>
  <message>
   <source>and {n} more</source>
   <translation>und {n} weitere</translation>
  </message>
  <message>
   <source>Days that are neither clear nor partly cloudy count as overcast. Nought in both columns is the cautious choice: measured months had two to four times as much light.</source>
   <translation>Tage, die weder klar noch wechselnd bewölkt sind, gelten als bedeckt. Null in beiden Spalten ist die vorsichtige Wahl: Gemessene Monate hatten zwei- bis viermal so viel Licht.</translation>
  </message>
  <message>
   <source>Skies of the year – Gloaming</source>
   <translation>Himmel des Jahres – Gloaming</translation>
  </message>
  <message>
   <source>Skies and temperatures by month</source>
   <translation>Himmel und Temperaturen nach Monaten</translation>
  </message>
  <message>
   <source>Use these months</source>
   <translation>Diese Monate verwenden</translation>
  </message>
  <message>
   <source>Clear days</source>
   <translation>Klare Tage</translation>
  </message>
  <message>
   <source>Sun and clouds</source>
   <translation>Sonne und Wolken</translation>
  </message>
  <message>
   <source>Temperature</source>
   <translation>Umgebungstemperatur</translation>
  </message>
  <message>
   <source>± in light</source>
   <translation>± bei Licht</translation>
  </message>
  <message>
   <source>{month}: {label}</source>
   <translation>{month}: {label}</translation>
  </message>
  <message>
   <source>Dismiss</source>
   <translation>Ausblenden</translation>
  </message>
  <message>
   <source>Parts…</source>
   <translation>Bauteile…</translation>
  </message>
  <message>
   <source>Take a part of your own, or keep this one as a part</source>
   <translation>Ein eigenes Bauteil übernehmen oder dieses als Bauteil ablegen</translation>
  </message>
  <message>
   <source>Nothing of this kind is kept yet. “Keep the present one” makes a part of what the design has now; its values are edited there.</source>
   <translation>Von dieser Art ist noch nichts abgelegt. „Jetziges ablegen“ macht aus dem, was der Entwurf jetzt hat, ein Bauteil; dort werden seine Werte bearbeitet.</translation>
  </message>
  <message>
   <source>Parts of your own – Gloaming</source>
   <translation>Eigene Bauteile – Gloaming</translation>
  </message>
  <message>
   <source>Parts on the shelf</source>
   <translation>Bauteile im Regal</translation>
  </message>
  <message>
   <source>Close the shelf</source>
   <translation>Das Regal schließen</translation>
  </message>
  <message>
   <source>Take this part</source>
   <translation>Dieses Bauteil übernehmen</translation>
  </message>
  <message>
   <source>Put a copy of it into the design (undo takes it back)</source>
   <translation>Eine Kopie davon in den Entwurf einsetzen (Rückgängig nimmt sie zurück)</translation>
  </message>
  <message>
   <source>Keep the present one</source>
   <translation>Jetziges ablegen</translation>
  </message>
  <message>
   <source>Make a part of what the design has now</source>
   <translation>Aus dem, was der Entwurf jetzt hat, ein Bauteil machen</translation>
  </message>
  <message>
   <source>Import…</source>
   <translation>Einlesen…</translation>
  </message>
  <message>
   <source>Copy a part file to the shelf</source>
   <translation>Eine Bauteildatei in das Regal kopieren</translation>
  </message>
  <message>
   <source>Renew</source>
   <translation>Auffrischen</translation>
  </message>
  <message>
   <source>Put the design's present values into this part</source>
   <translation>Die jetzigen Werte des Entwurfs in dieses Bauteil schreiben</translation>
  </message>
  <message>
   <source>Duplicate</source>
   <translation>Verdoppeln</translation>
  </message>
  <message>
   <source>A second part like this one</source>
   <translation>Ein zweites Bauteil wie dieses</translation>
  </message>
  <message>
   <source>Write a copy of its file elsewhere</source>
   <translation>Eine Kopie seiner Datei anderswo schreiben</translation>
  </message>
  <message>
   <source>Delete…</source>
   <translation>Löschen…</translation>
  </message>
  <message>
   <source>Take it off the shelf for good</source>
   <translation>Endgültig aus dem Regal nehmen</translation>
  </message>
  <message>
   <source>This file is no part.</source>
   <translation>Diese Datei ist kein Bauteil.</translation>
  </message>
  <message>
   <source>of {design}</source>
   <translation>von {design}</translation>
  </message>
  <message>
   <source>minimum {volts}</source>
   <translation>Minimum {volts}</translation>
  </message>
  <message>
   <source>Deepest pulse, V</source>
   <translation>Tiefster Puls, V</translation>
  </message>
  <message>
   <source>minimum {volts}, {below} lower</source>
   <translation>Minimum {volts}, {below} tiefer</translation>
  </message>
  <message>
   <source>No pulse.</source>
   <translation>Kein Puls.</translation>
  </message>
  <message>
   <source>The device draws no pulse.</source>
   <translation>Das Gerät zieht keinen Puls.</translation>
  </message>
  <message>
   <source>ramp {volts}</source>
   <translation>Rampe {volts}</translation>
  </message>
  <message>
   <source>ESR step {volts}</source>
   <translation>ESR-Sprung {volts}</translation>
  </message>
  <message>
   <source>&amp;Measure from here	M</source>
   <translation>Ab hier &amp;messen	M</translation>
  </message>
  <message>
   <source>&amp;Stop measuring	Esc</source>
   <translation>Messen be&amp;enden	Esc</translation>
  </message>
  <message>
   <source>Show &amp;everything	Home</source>
   <translation>&amp;Alles zeigen	Pos1</translation>
  </message>
  <message>
   <source>Zoom &amp;in	+</source>
   <translation>&amp;Vergrößern	+</translation>
  </message>
  <message>
   <source>Zoom &amp;out	−</source>
   <translation>Ver&amp;kleinern	−</translation>
  </message>
  <message>
   <source>Zoom in on the &amp;volts	Ctrl++</source>
   <translation>In &amp;Volt vergrößern	Strg++</translation>
  </message>
  <message>
   <source>Zoom out of the v&amp;olts	Ctrl+−</source>
   <translation>In V&amp;olt verkleinern	Strg+−</translation>
  </message>
  <message>
   <source>pinned</source>
   <translation>angeheftet</translation>
  </message>
  <message>
   <source>axis begins at {volts}</source>
   <translation>Achse beginnt bei {volts}</translation>
  </message>
  <message>
   <source>{change}: apply (undo reverts it)</source>
   <translation>{change}: anwenden (Rückgängig nimmt es zurück)</translation>
  </message>
  <message>
   <source>Apply: {change}</source>
   <translation>Anwenden: {change}</translation>
  </message>
  <message>
   <source>What would make it run</source>
   <translation>Was helfen würde</translation>
  </message>
  <message>
   <source>{sentence} These changes together are enough:</source>
   <translation>{sentence} Diese Änderungen zusammen reichen:</translation>
  </message>
  <message>
   <source>Runs as it is</source>
   <translation>Läuft so, wie es ist</translation>
  </message>
  <message>
   <source>Looking…</source>
   <translation>Wird gesucht…</translation>
  </message>
  <message>
   <source>Looking for more…</source>
   <translation>Weitere werden gesucht…</translation>
  </message>
  <message>
   <source>Give the light and the short-circuit current of one line; the rest may stay empty.</source>
   <translation>In einer Zeile Licht und Kurzschlussstrom angeben; der Rest darf leer bleiben.</translation>
  </message>
  <message>
   <source>Panel data sheet – Gloaming</source>
   <translation>Datenblatt des Moduls – Gloaming</translation>
  </message>
  <message>
   <source>What the fit found</source>
   <translation>Was die Anpassung fand</translation>
  </message>
  <message>
   <source>Curves through the points</source>
   <translation>Kennlinien durch die Punkte</translation>
  </message>
  <message>
   <source>Use no data sheet</source>
   <translation>Kein Datenblatt verwenden</translation>
  </message>
  <message>
   <source>Use this panel</source>
   <translation>Dieses Modul verwenden</translation>
  </message>
  <message>
   <source>Fitted curves through the points of the data sheet</source>
   <translation>Angepasste Kennlinien durch die Punkte des Datenblatts</translation>
  </message>
  <message>
   <source>lx</source>
   <translation>lx</translation>
  </message>
  <message>
   <source>Lamp</source>
   <translation>Lampe</translation>
  </message>
  <message>
   <source>Short circuit</source>
   <translation>Kurzschluss</translation>
  </message>
  <message>
   <source>µA</source>
   <translation>µA</translation>
  </message>
  <message>
   <source>Open circuit</source>
   <translation>Leerlauf</translation>
  </message>
  <message>
   <source>V</source>
   <translation>V</translation>
  </message>
  <message>
   <source>Current at best</source>
   <translation>Strom im Bestpunkt</translation>
  </message>
  <message>
   <source>Voltage at best</source>
   <translation>Spannung im Bestpunkt</translation>
  </message>
  <message>
   <source>Off by</source>
   <translation>Abweichung</translation>
  </message>
  <message>
   <source>Point {n}: {label}</source>
   <translation>Punkt {n}: {label}</translation>
  </message>
  <message>
   <source>Remove point {n}</source>
   <translation>Punkt {n} entfernen</translation>
  </message>
  <message>
   <source>Point {n}: lamp</source>
   <translation>Punkt {n}: Lampe</translation>
  </message>
  <message>
   <source>Add point</source>
   <translation>Punkt hinzufügen</translation>
  </message>
  <message>
   <source>Measured curve…</source>
   <translation>Gemessene Kennlinie…</translation>
  </message>
  <message>
   <source>Take a line from a table of voltage and current</source>
   <translation>Eine Zeile aus einer Tabelle von Spannung und Strom nehmen</translation>
  </message>
  <message>
   <source>Open a measured curve</source>
   <translation>Gemessene Kennlinie öffnen</translation>
  </message>
  <message>
   <source>fit {value}</source>
   <translation>Anpassung {value}</translation>
  </message>
  <message>
   <source>PDF (*.pdf)</source>
   <translation>PDF (*.pdf)</translation>
  </message>
  <message>
   <source>Web page (*.html)</source>
   <translation>Webseite (*.html)</translation>
  </message>
  <message>
   <source>Write a report</source>
   <translation>Bericht schreiben</translation>
  </message>
  <message>
   <source>The report is being written.</source>
   <translation>Der Bericht wird geschrieben.</translation>
  </message>
  <message>
   <source>The report was not written. {why}</source>
   <translation>Der Bericht wurde nicht geschrieben. {why}</translation>
  </message>
  <message>
   <source>Hazard: {title}. {text}</source>
   <translation>Gefahr: {title}. {text}</translation>
  </message>
  <message>
   <source>A lux meter reads for the eye only.</source>
   <translation>Ein Luxmeter misst nur für das Auge.</translation>
  </message>
  <message>
   <source>{value}, stop {n} of {count}</source>
   <translation>{value}, Raste {n} von {count}</translation>
  </message>
  <message>
   <source>Kept in {folder}: the design, its logged runs, the designs beside it. The results follow; Save keeps what changes.</source>
   <translation>In {folder} liegen nun der Entwurf, seine Aufzeichnungen und die Entwürfe daneben. Die Ergebnisse folgen; Speichern bewahrt, was sich ändert.</translation>
  </message>
  <message>
   <source>The results of {study} are written.</source>
   <translation>Die Ergebnisse von {study} sind geschrieben.</translation>
  </message>
  <message>
   <source>The results were not written: {reason}</source>
   <translation>Die Ergebnisse wurden nicht geschrieben: {reason}</translation>
  </message>
  <message>
   <source>The study was not kept</source>
   <translation>Die Studie wurde nicht gespeichert</translation>
  </message>
  <message>
   <source>How {file} is read</source>
   <translation>Wie {file} gelesen wird</translation>
  </message>
  <message>
   <source>First readings as understood</source>
   <translation>Erste Messwerte, wie sie verstanden werden</translation>
  </message>
  <message>
   <source>Use it</source>
   <translation>Verwenden</translation>
  </message>
  <message>
   <source>Take the file as it is read here</source>
   <translation>Die Datei nehmen, wie sie hier gelesen wird</translation>
  </message>
  <message>
   <source>{choice}: {meaning}</source>
   <translation>{choice}: {meaning}</translation>
  </message>
  <message>
   <source>{name}: click to change</source>
   <translation>{name}: zum Ändern anklicken</translation>
  </message>
  <message>
   <source>where it hangs</source>
   <translation>wo es hängt</translation>
  </message>
  <message>
   <source>Pulse</source>
   <translation>Puls</translation>
  </message>
  <message>
   <source>Show one pulse</source>
   <translation>Einen Puls zeigen</translation>
  </message>
  <message>
   <source>Hour</source>
   <translation>Stunde</translation>
  </message>
  <message>
   <source>Show one hour</source>
   <translation>Eine Stunde zeigen</translation>
  </message>
  <message>
   <source>Day</source>
   <translation>Tag</translation>
  </message>
  <message>
   <source>Show one day</source>
   <translation>Einen Tag zeigen</translation>
  </message>
  <message>
   <source>Week</source>
   <translation>Woche</translation>
  </message>
  <message>
   <source>Show one week</source>
   <translation>Eine Woche zeigen</translation>
  </message>
  <message>
   <source>Show one month</source>
   <translation>Einen Monat zeigen</translation>
  </message>
  <message>
   <source>Year</source>
   <translation>Jahr</translation>
  </message>
  <message>
   <source>Show one year</source>
   <translation>Ein Jahr zeigen</translation>
  </message>
  <message>
   <source>Fit</source>
   <translation>Alles</translation>
  </message>
  <message>
   <source>Show everything again (Home)</source>
   <translation>Wieder alles zeigen (Pos1)</translation>
  </message>
  <message>
   <source>“{title}”, {file}, kept {time}</source>
   <translation>„{title}“, {file}, gesichert {time}</translation>
  </message>
  <message>
   <source>“{title}”, kept {time}</source>
   <translation>„{title}“, gesichert {time}</translation>
  </message>
  <message>
   <source>This file is also open in another window; each asks before it overwrites.</source>
   <translation>Diese Datei ist auch in einem anderen Fenster offen; jedes fragt, bevor es überschreibt.</translation>
  </message>
  <message>
   <source>Lowest here {first} once connected; once settled, as checks and answers count, {settled}</source>
   <translation>Tiefste hier {first} nach dem Einschalten; eingeschwungen, wie Prüfungen und Antworten zählen, {settled}</translation>
  </message>
  <message>
   <source>Empty to connected</source>
   <translation>Von leer bis eingeschaltet</translation>
  </message>
  <message>
   <source>Empty to ready</source>
   <translation>Von leer bis betriebsbereit</translation>
  </message>
  <message>
   <source>Empty to first operation done</source>
   <translation>Von leer bis Vorgang fertig</translation>
  </message>
  <message>
   <source>Empty to full, device off</source>
   <translation>Von leer bis voll, Gerät aus</translation>
  </message>
  <message>
   <source>Autonomy from full</source>
   <translation>Autonomie ab voll</translation>
  </message>
  <message>
   <source>Recovery after a cut-off</source>
   <translation>Wiederanlaufzeit</translation>
  </message>
  <message>
   <source>Longest dark stretch</source>
   <translation>Längste Dunkelphase</translation>
  </message>
  <message>
   <source>Lowest store voltage</source>
   <translation>Niedrigste Speicherspannung</translation>
  </message>
  <message>
   <source>Highest store voltage</source>
   <translation>Höchste Speicherspannung</translation>
  </message>
  <message>
   <source>Lowest terminal voltage</source>
   <translation>Niedrigste Klemmenspannung (eingeschaltet)</translation>
  </message>
  <message>
   <source>Power in over power taken</source>
   <translation>Leistung: verfügbar ÷ nötig</translation>
  </message>
  <message>
   <source>Cut-offs per week</source>
   <translation>Abschaltungen je Woche</translation>
  </message>
  <message>
   <source>Least light for the balance</source>
   <translation>Mindestlicht für die Bilanz</translation>
  </message>
  <message>
   <source>Most operations per day</source>
   <translation>Höchste Zahl der Vorgänge pro Tag</translation>
  </message>
  <message>
   <source>Longest closure survived</source>
   <translation>Längste überbrückte Schließzeit</translation>
  </message>
  <message>
   <source>Empty to filled in the light asked</source>
   <translation>Von leer bis gefüllt im verlangten Licht</translation>
  </message>
  <message>
   <source>Operations per hour in the light asked</source>
   <translation>Vorgänge je Stunde im verlangten Licht</translation>
  </message>
  <message>
   <source>Store worn out after</source>
   <translation>Speicher verbraucht nach</translation>
  </message>
  <message>
   <source>Empty to indicator, device off</source>
   <translation>Von leer bis Anzeige, Gerät aus</translation>
  </message>
  <message>
   <source>Length of a run</source>
   <translation>Dauer eines Laufs</translation>
  </message>
  <message>
   <source>From one run to the next</source>
   <translation>Von Lauf zu Lauf</translation>
  </message>
  <message>
   <source>Runs per hour</source>
   <translation>Läufe je Stunde</translation>
  </message>
  <message>
   <source>Time at work</source>
   <translation>Zeit in Betrieb</translation>
  </message>
  <message>
   <source>Energy of a run</source>
   <translation>Energie eines Laufs</translation>
  </message>
  <message>
   <source>An empty store; counted from the first light to the first connect.</source>
   <translation>Leerer Speicher; vom ersten Licht bis zum ersten Einschalten.</translation>
  </message>
  <message>
   <source>An empty store; counted from the first light to the end of the start-up.</source>
   <translation>Leerer Speicher; vom ersten Licht bis zum Ende des Anlaufs.</translation>
  </message>
  <message>
   <source>An empty store; from the first light to the end of one operation.</source>
   <translation>Leerer Speicher; vom ersten Licht bis zum Ende eines Vorgangs.</translation>
  </message>
  <message>
   <source>An empty store, the device held off; counted from the first light.</source>
   <translation>Leerer Speicher, Gerät ausgeschaltet; gezählt vom ersten Licht an.</translation>
  </message>
  <message>
   <source>A full store, no light; until the cut-off, the reserve kept.</source>
   <translation>Voller Speicher, kein Licht; bis zur Abschaltung, Notreserve bleibt.</translation>
  </message>
  <message>
   <source>All kinds together, from a full store in the dark, the reserve kept.</source>
   <translation>Alle Arten zusammen, aus vollem Speicher im Dunkeln, Notreserve bleibt.</translation>
  </message>
  <message>
   <source>From the cut-off voltage to ready again, from when the light comes on; of a year in its darkest month.</source>
   <translation>Von der Abschaltspannung bis wieder betriebsbereit, ab dem Angehen des Lichts; in einem Jahr in dessen dunkelstem Monat.</translation>
  </message>
  <message>
   <source>Light that brings nothing to the store; a declared closure does not count.</source>
   <translation>Licht, das dem Speicher nichts bringt; eine angegebene Schließzeit zählt nicht.</translation>
  </message>
  <message>
   <source>Open-circuit voltage in the steady cycle.</source>
   <translation>Leerlaufspannung im eingeschwungenen Zyklus.</translation>
  </message>
  <message>
   <source>In the steady cycle, on or off; the Pulse check is without light.</source>
   <translation>Im wiederkehrenden Verlauf, ein oder aus; die Prüfung Puls ist ohne Licht.</translation>
  </message>
  <message>
   <source>Of those wanted, the operation that fares worst, in the steady cycle.</source>
   <translation>Von den gewünschten, beim ungünstigsten Vorgang, im eingeschwungenen Zyklus.</translation>
  </message>
  <message>
   <source>With the store held at the voltage that suits the balance best.</source>
   <translation>Mit dem Speicher auf der für die Bilanz günstigsten Spannung.</translation>
  </message>
  <message>
   <source>In the steady cycle, by the time that was followed.</source>
   <translation>Im wiederkehrenden Verlauf, bezogen auf die verfolgte Zeit.</translation>
  </message>
  <message>
   <source>While lit; Balance is just 1: energy alone, all else as it is.</source>
   <translation>Bei Licht; Bilanz gerade 1: nur Energie, sonst alles wie jetzt.</translation>
  </message>
  <message>
   <source>Of the first operation at an interval; Service and Balance just pass.</source>
   <translation>Des ersten Vorgangs mit Intervall; Ausführung und Bilanz gerade bestanden.</translation>
  </message>
  <message>
   <source>Dark just passes; it begins like the evening with the least charge.</source>
   <translation>Dunkelheit gerade bestanden; beginnt wie der Abend mit der kleinsten Ladung.</translation>
  </message>
  <message>
   <source>An empty store, the device held off, in steady light: what is asked of it.</source>
   <translation>Leerer Speicher, Gerät aus, gleichmäßiges Licht: was verlangt ist.</translation>
  </message>
  <message>
   <source>All kinds together, while due, in steady light: what is asked of it.</source>
   <translation>Alle Arten zusammen, solange sie anstehen, gleichmäßiges Licht: was verlangt ist.</translation>
  </message>
  <message>
   <source>An empty store, the device held off; until the indicator says it is charged.</source>
   <translation>Leerer Speicher, Gerät aus; bis die Anzeige „geladen“ meldet.</translation>
  </message>
  <message>
   <source>From new, until it counts as worn out: what is asked of it.</source>
   <translation>Ab neu, bis er als verbraucht gilt: was verlangt ist.</translation>
  </message>
  <message>
   <source>From the end of the start-up to the cut-off, the run of middle length.</source>
   <translation>Vom Ende des Anlaufs bis zur Abschaltung, der Lauf mittlerer Dauer.</translation>
  </message>
  <message>
   <source>From one beginning to the next in the steady cycle, the middle one.</source>
   <translation>Von einem Beginn zum nächsten im eingeschwungenen Zyklus, der mittlere.</translation>
  </message>
  <message>
   <source>Of at least the length that counts, over the whole steady cycle.</source>
   <translation>Von mindestens der Dauer, die zählt, über den ganzen eingeschwungenen Zyklus.</translation>
  </message>
  <message>
   <source>Share of the steady cycle in which the device is connected.</source>
   <translation>Anteil des eingeschwungenen Zyklus, in dem das Gerät eingeschaltet ist.</translation>
  </message>
  <message>
   <source>What the load takes in the run of middle length.</source>
   <translation>Was die Last im Lauf mittlerer Dauer aufnimmt.</translation>
  </message>
  <message>
   <source>Ready</source>
   <translation>Betriebsbereit</translation>
  </message>
  <message>
   <source>First operation</source>
   <translation>Erster Vorgang</translation>
  </message>
  <message>
   <source>Full, device off</source>
   <translation>Voll, Gerät aus</translation>
  </message>
  <message>
   <source>From full</source>
   <translation>Von voll</translation>
  </message>
  <message>
   <source>After a cut-off</source>
   <translation>Wiederanlauf</translation>
  </message>
  <message>
   <source>Dark stretch</source>
   <translation>Dunkelphase</translation>
  </message>
  <message>
   <source>Highest store</source>
   <translation>Speicher, höchste</translation>
  </message>
  <message>
   <source>Lowest terminals</source>
   <translation>Klemmen, tiefste</translation>
  </message>
  <message>
   <source>Completed</source>
   <translation>Ausgeführt</translation>
  </message>
  <message>
   <source>Least light</source>
   <translation>Mindestlicht</translation>
  </message>
  <message>
   <source>Most per day</source>
   <translation>Meiste pro Tag</translation>
  </message>
  <message>
   <source>Closure</source>
   <translation>Schließzeit</translation>
  </message>
  <message>
   <source>Full as asked</source>
   <translation>Voll wie verlangt</translation>
  </message>
  <message>
   <source>Per hour as asked</source>
   <translation>Je Stunde wie verlangt</translation>
  </message>
  <message>
   <source>Store lasts</source>
   <translation>Speicher hält</translation>
  </message>
  <message>
   <source>To the indicator</source>
   <translation>Bis zur Anzeige</translation>
  </message>
  <message>
   <source>Run</source>
   <translation>Lauf</translation>
  </message>
  <message>
   <source>Run to run</source>
   <translation>Lauf zu Lauf</translation>
  </message>
  <message>
   <source>At work</source>
   <translation>In Betrieb</translation>
  </message>
  <message>
   <source>Starting from empty</source>
   <translation>Anlauf aus leer</translation>
  </message>
  <message>
   <source>In the dark</source>
   <translation>Im Dunkeln</translation>
  </message>
  <message>
   <source>Once settled</source>
   <translation>Eingeschwungen</translation>
  </message>
  <message>
   <source>more than {value}</source>
   <translation>mehr als {value}</translation>
  </message>
  <message>
   <source>less than {value}</source>
   <translation>weniger als {value}</translation>
  </message>
  <message>
   <source>none up to {value}</source>
   <translation>keine bis {value}</translation>
  </message>
  <message>
   <source>not even {value}</source>
   <translation>nicht einmal {value}</translation>
  </message>
  <message>
   <source>no limit</source>
   <translation>unbegrenzt</translation>
  </message>
  <message>
   <source>Nearest as sold: {panels}; {store}. Price {price}, now {now}.</source>
   <translation>Am nächsten käuflich: {panels}; {store}. Preis {price}, jetzt {now}.</translation>
  </message>
  <message>
   <source>{word}: {changes}.</source>
   <translation>{word}: {changes}.</translation>
  </message>
  <message>
   <source>This build cannot be judged.</source>
   <translation>Dieser Aufbau lässt sich nicht beurteilen.</translation>
  </message>
  <message>
   <source>{word}; no check changes.</source>
   <translation>{word}; keine Prüfung ändert sich.</translation>
  </message>
  <message>
   <source>{check} {before} → {after}</source>
   <translation>{check} {before} → {after}</translation>
  </message>
  <message>
   <source>Panel area</source>
   <translation>Modulfläche</translation>
  </message>
  <message>
   <source>{measure} up to {value}</source>
   <translation>{measure} bis {value}</translation>
  </message>
  <message>
   <source>{n} builds tried, {running} may run; {front} of them are beaten by no other in price, area, volume and mass, and run by the exact model.</source>
   <translation>{n} Aufbauten versucht, {running} können laufen; {front} davon schlägt kein anderer in Preis, Fläche, Volumen und Masse, und sie laufen nach dem genauen Modell.</translation>
  </message>
  <message>
   <source>Prices are relative and stand for generic parts (own judgement, no source); put in the prices of your parts to know better.</source>
   <translation>Preise sind relativ und stehen für allgemeine Bauteile (eigene Einschätzung, ohne Quelle); genauer wird es mit den Preisen eigener Teile.</translation>
  </message>
  <message>
   <source>Height of the store</source>
   <translation>Höhe des Speichers</translation>
  </message>
  <message>
   <source>Smallest margin</source>
   <translation>Kleinster Faktor</translation>
  </message>
  <message>
   <source>Price, relative</source>
   <translation>Preis, relativ</translation>
  </message>
  <message>
   <source>Price in {currency}</source>
   <translation>Preis in {currency}</translation>
  </message>
  <message>
   <source>Price, no currency named</source>
   <translation>Preis ohne Währung</translation>
  </message>
  <message>
   <source>any {measure}</source>
   <translation>{measure} beliebig</translation>
  </message>
  <message>
   <source>one panel</source>
   <translation>ein Modul</translation>
  </message>
  <message>
   <source>up to {n} panels</source>
   <translation>bis zu {n} Module</translation>
  </message>
  <message>
   <source>no limits</source>
   <translation>ohne Grenzen</translation>
  </message>
  <message>
   <source>The {n} builds that were kept still run; all others are looked at anew…</source>
   <translation>Die {n} aufbewahrten Aufbauten laufen weiterhin; alle anderen werden neu betrachtet…</translation>
  </message>
  <message>
   <source>{n} builds tried, none of them may run so far…</source>
   <translation>{n} Aufbauten geprüft, bisher kommt keiner infrage…</translation>
  </message>
  <message>
   <source>{n} builds tried, {running} may run; the exact model tries the best of them…</source>
   <translation>{n} Aufbauten geprüft, {running} kommen infrage; das exakte Modell prüft die besten davon…</translation>
  </message>
  <message>
   <source>None of {n} builds is within the limits.</source>
   <translation>Keiner von {n} Aufbauten hält die Grenzen ein.</translation>
  </message>
  <message>
   <source>Of {n} builds {within} are within the limits, and none of these runs in this light.</source>
   <translation>Von {n} Aufbauten halten {within} die Grenzen ein, und keiner davon läuft bei diesem Licht.</translation>
  </message>
  <message>
   <source>Of {n} builds none runs in this light.</source>
   <translation>Von {n} Aufbauten läuft in diesem Licht keiner.</translation>
  </message>
  <message>
   <source>{n} builds tried; {running} seemed to run, and none of those that the exact model tried does.</source>
   <translation>{n} Aufbauten geprüft; {running} schienen zu laufen, doch keiner, den das exakte Modell geprüft hat, läuft.</translation>
  </message>
  <message>
   <source>{n} builds tried, {running} may run; one of them is beaten by no other in price, area, volume and mass, and runs by the exact model.</source>
   <translation>{n} Aufbauten versucht, {running} können laufen; einen davon schlägt kein anderer in Preis, Fläche, Volumen und Masse, und er läuft nach dem genauen Modell.</translation>
  </message>
  <message>
   <source>None of these parts has a price.</source>
   <translation>Keines dieser Bauteile hat einen Preis.</translation>
  </message>
  <message>
   <source>Prices in {currencies} and relative ones of generic parts (own judgement, no source) are never added up: cheaper is what costs no more in any of them. A limit on the price holds for what is priced in {first} alone.</source>
   <translation>Preise in {currencies} und relative von allgemeinen Bauteilen (eigene Einschätzung, ohne Quelle) werden nie addiert: Günstiger ist, was in keinem davon mehr kostet. Eine Grenze für den Preis gilt für das, was allein in {first} etwas kostet.</translation>
  </message>
  <message>
   <source>Prices in {currencies} are never added up: cheaper is what costs no more in any of them. A limit on the price holds for what is priced in {first} alone.</source>
   <translation>Preise in {currencies} werden nie addiert: Günstiger ist, was in keiner Währung mehr kostet. Eine Grenze für den Preis gilt für das, was allein in {first} etwas kostet.</translation>
  </message>
  <message>
   <source>Prices are those of your parts; generic panels and stores were not tried.</source>
   <translation>Preise sind die Ihrer Bauteile; allgemeine Module und Speicher wurden nicht versucht.</translation>
  </message>
  <message>
   <source>no lithium</source>
   <translation>kein Lithium</translation>
  </message>
  <message>
   <source>As yours have prices, generic panels were not tried.</source>
   <translation>Da Ihre Preise haben, wurden allgemeine Module nicht versucht.</translation>
  </message>
  <message>
   <source>As yours have prices, generic stores were not tried.</source>
   <translation>Da Ihre Preise haben, wurden allgemeine Speicher nicht versucht.</translation>
  </message>
  <message>
   <source>no named currency</source>
   <translation>einer Währung ohne Namen</translation>
  </message>
  <message>
   <source>{n} readings over {span}, {step} apart; {low} to {high}.</source>
   <translation>{n} Messwerte über {span}, im Abstand von {step}; {low} bis {high}.</translation>
  </message>
  <message>
   <source>The cycle from {start} lasts {length} and takes {charge}, on average {current}.</source>
   <translation>Der Zyklus ab {start} dauert {length} und entnimmt {charge}, im Mittel {current}.</translation>
  </message>
  <message>
   <source>{n} phases; at rest this cycle draws {current}.</source>
   <translation>{n} Phasen; in Ruhe zieht dieser Zyklus {current}.</translation>
  </message>
  <message>
   <source>Charge: missed by {share} %.</source>
   <translation>Ladung: um {share} % verfehlt.</translation>
  </message>
  <message>
   <source>Deepest droop: within {share} % of the capture's in any store.</source>
   <translation>Tiefster Einbruch: in jedem Speicher bis auf {share} % der der Aufzeichnung.</translation>
  </message>
  <message>
   <source>No sleep is seen in it</source>
   <translation>Kein Schlaf darin zu sehen</translation>
  </message>
  <message>
   <source>Asleep it draws {current} on average</source>
   <translation>Im Schlaf zieht es im Mittel {current}</translation>
  </message>
  <message>
   <source>nothing is seen to repeat.</source>
   <translation>nichts wiederholt sich sichtbar.</translation>
  </message>
  <message>
   <source>it repeats every {time}.</source>
   <translation>es wiederholt sich alle {time}.</translation>
  </message>
  <message>
   <source>{n} phases; this cycle has no rest at its end.</source>
   <translation>{n} Phasen; dieser Zyklus endet nicht in Ruhe.</translation>
  </message>
  <message>
   <source>Charge: kept exactly.</source>
   <translation>Ladung: genau erhalten.</translation>
  </message>
  <message>
   <source>The load has a regulator: its phases are currents behind it, on the device's side.</source>
   <translation>Die Last hat einen Regler: Ihre Phasen sind Ströme dahinter, auf der Seite des Geräts.</translation>
  </message>
  <message>
   <source>That is more than {most} %. Choose a cycle that ends at rest, or average the noise away in the instrument.</source>
   <translation>Das sind mehr als {most} %. Einen Zyklus wählen, der in Ruhe endet, oder das Rauschen im Messgerät wegmitteln.</translation>
  </message>
  <message>
   <source>Title, place and notes</source>
   <translation>Titel, Ort und Notizen</translation>
  </message>
  <message>
   <source>This design: {one}; the other: {two}.</source>
   <translation>Dieser Entwurf: {one}; der andere: {two}.</translation>
  </message>
  <message>
   <source>this design: {text}</source>
   <translation>dieser Entwurf: {text}</translation>
  </message>
  <message>
   <source>the other: {text}</source>
   <translation>der andere: {text}</translation>
  </message>
  <message>
   <source>Nothing differs.</source>
   <translation>Kein Unterschied.</translation>
  </message>
  <message>
   <source>One value differs.</source>
   <translation>Ein Wert ist verschieden.</translation>
  </message>
  <message>
   <source>{n} values differ.</source>
   <translation>{n} Werte sind verschieden.</translation>
  </message>
  <message>
   <source>{amount} for {duration}</source>
   <translation>{amount} für {duration}</translation>
  </message>
  <message>
   <source>{n} entries</source>
   <translation>{n} Einträge</translation>
  </message>
  <message>
   <source>1 entry</source>
   <translation>1 Eintrag</translation>
  </message>
  <message>
   <source>empty</source>
   <translation>leer</translation>
  </message>
  <message>
   <source>Checks and margins</source>
   <translation>Prüfungen und Faktoren</translation>
  </message>
  <message>
   <source>Both: {word}.</source>
   <translation>Beide: {word}.</translation>
  </message>
  <message>
   <source>the device as designed</source>
   <translation>das Gerät wie entworfen</translation>
  </message>
  <message>
   <source>the device without its operations</source>
   <translation>das Gerät ohne seine Vorgänge</translation>
  </message>
  <message>
   <source>nothing</source>
   <translation>nichts</translation>
  </message>
  <message>
   <source>a steady current</source>
   <translation>ein gleichmäßiger Strom</translation>
  </message>
  <message>
   <source>in the light of the design</source>
   <translation>im Licht des Entwurfs</translation>
  </message>
  <message>
   <source>a steady current of {current} ± {share}</source>
   <translation>ein gleichmäßiger Strom von {current} ± {share}</translation>
  </message>
  <message>
   <source>connected: {what}</source>
   <translation>angeschlossen: {what}</translation>
  </message>
  <message>
   <source>in steady light of {lux} ± {share}</source>
   <translation>in gleichmäßigem Licht von {lux} ± {share}</translation>
  </message>
  <message>
   <source>in the light of the log</source>
   <translation>im Licht des Protokolls</translation>
  </message>
  <message>
   <source>begins on {moment}</source>
   <translation>beginnt am {moment}</translation>
  </message>
  <message>
   <source>in steady light of {lux}</source>
   <translation>in gleichmäßigem Licht von {lux}</translation>
  </message>
  <message>
   <source>on at first</source>
   <translation>anfangs an</translation>
  </message>
  <message>
   <source>off at first</source>
   <translation>anfangs aus</translation>
  </message>
  <message>
   <source>Verdict of the device on this store</source>
   <translation>Urteil über das Gerät mit diesem Speicher</translation>
  </message>
  <message>
   <source>Store voltage over the light's period, from the beginning</source>
   <translation>Speicherspannung über die Periode des Lichts, von Anfang an</translation>
  </message>
  <message>
   <source>Smallest size that runs, or the best one if none does</source>
   <translation>Kleinste Größe, die läuft; läuft keine, die beste</translation>
  </message>
  <message>
   <source>Margin of the check that governs</source>
   <translation>Faktor der maßgebenden Prüfung</translation>
  </message>
  <message>
   <source>From empty to the first operation</source>
   <translation>Von leer bis zum ersten Vorgang</translation>
  </message>
  <message>
   <source>From full to cut-off without light</source>
   <translation>Von voll bis zur Abschaltung ohne Licht</translation>
  </message>
  <message>
   <source>Operations from full to cut-off without light</source>
   <translation>Vorgänge von voll bis zur Abschaltung ohne Licht</translation>
  </message>
  <message>
   <source>Volume of the store</source>
   <translation>Volumen des Speichers</translation>
  </message>
  <message>
   <source>Mass of the store</source>
   <translation>Masse des Speichers</translation>
  </message>
  <message>
   <source>Relative cost for the same job, 1 (cheapest) to 5; the price of a store of your own</source>
   <translation>Relative Kosten für dieselbe Aufgabe, 1 (am günstigsten) bis 5; bei eigenen Speichern der Preis</translation>
  </message>
  <message>
   <source>Years to the store's end of life at this temperature and voltage</source>
   <translation>Jahre bis zum Lebensende des Speichers bei dieser Temperatur und Spannung</translation>
  </message>
  <message>
   <source>What to mind with this kind of store</source>
   <translation>Was bei dieser Art Speicher zu beachten ist</translation>
  </message>
  <message>
   <source>{n} of {count} kinds of store would run, each in its best size</source>
   <translation>{n} von {count} Speicherarten geeignet, jede in ihrer besten Größe</translation>
  </message>
  <message>
   <source>Trace</source>
   <translation>Verlauf</translation>
  </message>
  <message>
   <source>Size</source>
   <translation>Größe</translation>
  </message>
  <message>
   <source>Autonomy</source>
   <translation>Autonomie</translation>
  </message>
  <message>
   <source>Cost</source>
   <translation>Kosten</translation>
  </message>
  <message>
   <source>Life</source>
   <translation>Lebensdauer</translation>
  </message>
  <message>
   <source>{name}: its voltage does not suit this device in any size.</source>
   <translation>{name}: Die Spannung passt in keiner Größe zu diesem Gerät.</translation>
  </message>
  <message>
   <source>Hazard: {title}.</source>
   <translation>Gefahr: {title}.</translation>
  </message>
  <message>
   <source>{n} of {count} kinds of store would run, each in its best size, and {m} of {own} of your own</source>
   <translation>{n} von {count} Speicherarten würden laufen, jede in ihrer besten Größe, und {m} von {own} eigenen</translation>
  </message>
  <message>
   <source>{n} of {count} kinds so far would run</source>
   <translation>Bisher {n} von {count} Arten geeignet</translation>
  </message>
  <message>
   <source>None of {count} kinds of store would run in any size; nearest comes {store}, {size}: {reason}</source>
   <translation>Keine von {count} Speicherarten würde in irgendeiner Größe laufen; am nächsten kommt {store}, {size}: {reason}</translation>
  </message>
  <message>
   <source>Does not suit</source>
   <translation>Passt nicht</translation>
  </message>
  <message>
   <source>Mind: {cautions}.</source>
   <translation>Vorsicht: {cautions}.</translation>
  </message>
  <message>
   <source>None of {count} kinds of store would run in any size</source>
   <translation>Keine von {count} Speicherarten geeignet, gleich in welcher Größe</translation>
  </message>
  <message>
   <source>minimum operating voltage</source>
   <translation>Mindest-Betriebsspannung</translation>
  </message>
  <message>
   <source>output and dropout voltage of the regulator</source>
   <translation>Ausgangs- und Dropout-Spannung des Reglers</translation>
  </message>
  <message>
   <source>minimum input of the regulator</source>
   <translation>Mindesteingang des Reglers</translation>
  </message>
  <message>
   <source>lowest voltage of the store</source>
   <translation>kleinste Spannung des Speichers</translation>
  </message>
  <message>
   <source>Cuts off at {volts} already ({reason}), above the disconnect voltage.</source>
   <translation>Schaltet schon bei {volts} ab ({reason}), über der Abschaltspannung.</translation>
  </message>
  <message>
   <source>{low} to {high} of the days with sun; {air}.</source>
   <translation>an {low} bis {high} der Tage Sonne; {air}.</translation>
  </message>
  <message>
   <source>all at {at}</source>
   <translation>alle bei {at}</translation>
  </message>
  <message>
   <source>{cold} to {warm}</source>
   <translation>{cold} bis {warm}</translation>
  </message>
  <message>
   <source>Overcast throughout, the cautious choice; {air}.</source>
   <translation>Durchweg bedeckt, die vorsichtige Wahl; {air}.</translation>
  </message>
  <message>
   <source>More than all days: {months}. Clear and partly cloudy may be 100 % together.</source>
   <translation>Mehr als alle Tage: {months}. Klar und wechselnd bewölkt dürfen zusammen 100 % sein.</translation>
  </message>
  <message>
   <source>A number is missing: {months}.</source>
   <translation>Eine Zahl fehlt: {months}.</translation>
  </message>
  <message>
   <source>falls short</source>
   <translation>reicht nicht</translation>
  </message>
  <message>
   <source>marginal</source>
   <translation>knapp</translation>
  </message>
  <message>
   <source>runs</source>
   <translation>läuft</translation>
  </message>
  <message>
   <source>{share} of what the panel could give reaches the device</source>
   <translation>Vom möglichen Modulertrag kommen {share} beim Gerät an</translation>
  </message>
  <message>
   <source>Of {light} of light {span} the cells convert {panel}; {work} reach the device.</source>
   <translation>Von {light} Licht {span} wandeln die Zellen {panel} um; {work} kommen beim Gerät an.</translation>
  </message>
  <message>
   <source>With {held}: {outcome}.</source>
   <translation>Für {held}: {outcome}.</translation>
  </message>
  <message>
   <source>With {held}: looking for where the verdict changes…</source>
   <translation>Für {held}: Es wird gesucht, wo das Urteil wechselt…</translation>
  </message>
  <message>
   <source>{runs} of {builds} built devices run, {works} are at least marginal</source>
   <translation>{runs} von {builds} gebauten Geräten laufen, {works} laufen oder sind knapp</translation>
  </message>
  <message>
   <source>{n} devices near a limit were judged one by one; {left} more are too near it to be sure.</source>
   <translation>{n} Geräte nahe einer Grenze wurden einzeln beurteilt; {left} weitere liegen zu nahe daran, um sicher zu sein.</translation>
  </message>
  <message>
   <source>a week</source>
   <comment>how often</comment>
   <translation>pro Woche</translation>
  </message>
  <message>
   <source>in {time}</source>
   <translation>in {time}</translation>
  </message>
  <message>
   <source>in {month}</source>
   <translation>im {month}</translation>
  </message>
  <message>
   <source>, the store gives {store}</source>
   <translation>, der Speicher gibt {store}</translation>
  </message>
  <message>
   <source>Falls short at every {label} from {low} to {high} with {held}.</source>
   <translation>Für {held}: Reicht von {low} bis {high} nirgends ({label}).</translation>
  </message>
  <message>
   <source>everywhere from {first} to {last}</source>
   <translation>überall von {first} bis {last}</translation>
  </message>
  <message>
   <source>{runs} of such devices run, {works} are at least marginal ({n} drawn)</source>
   <translation>{runs} solcher Geräte laufen, {works} sind mindestens knapp ({n} gezogen)</translation>
  </message>
  <message>
   <source>{n} devices, drawn at random, were each judged by their whole year; such a range holds the share of all in 95 of 100 draws.</source>
   <translation>{n} Geräte, zufällig gezogen, wurden jedes nach seinem ganzen Jahr beurteilt; in 95 von 100 Ziehungen enthält ein solcher Bereich den Anteil aller.</translation>
  </message>
  <message>
   <source>{n} devices near a limit were judged one by one.</source>
   <translation>{n} Geräte nahe einer Grenze wurden einzeln beurteilt.</translation>
  </message>
  <message>
   <source>runs {where}</source>
   <translation>läuft {where}</translation>
  </message>
  <message>
   <source>works, below the required margin, {where}</source>
   <translation>läuft knapp {where}</translation>
  </message>
  <message>
   <source>{n} devices near a limit are not decided yet.</source>
   <translation>{n} Geräte nahe einer Grenze sind noch nicht entschieden.</translation>
  </message>
  <message>
   <source>1 panel</source>
   <translation>1 Modul</translation>
  </message>
  <message>
   <source>{n} panels</source>
   <translation>{n} Module</translation>
  </message>
  <message>
   <source>{label}: {value}, {share} of what the panel could give. Enter goes to what governs it.</source>
   <translation>{label}: {value}, {share} des möglichen Modulertrags. Die Eingabetaste führt zur bestimmenden Größe.</translation>
  </message>
  <message>
   <source>looking for where the verdict changes…</source>
   <translation>es wird gesucht, wo das Urteil wechselt…</translation>
  </message>
  <message>
   <source>runs {span}</source>
   <translation>läuft {span}</translation>
  </message>
  <message>
   <source>{runs}, marginal {span}</source>
   <translation>{runs}, knapp {span}</translation>
  </message>
  <message>
   <source>between {low} and {high}</source>
   <comment>range</comment>
   <translation>zwischen {low} und {high}</translation>
  </message>
  <message>
   <source>no value of this alone makes it run</source>
   <translation>allein hiermit läuft es bei keinem Wert</translation>
  </message>
  <message>
   <source>marginal {span}, runs at no value</source>
   <translation>knapp {span}, läuft bei keinem Wert</translation>
  </message>
  <message>
   <source>{runs}, marginal elsewhere</source>
   <translation>{runs}, sonst knapp</translation>
  </message>
  <message>
   <source>at every value</source>
   <comment>range</comment>
   <translation>bei jedem Wert</translation>
  </message>
  <message>
   <source>from {low}</source>
   <comment>range</comment>
   <translation>ab {low}</translation>
  </message>
  <message>
   <source>up to {high}</source>
   <comment>range</comment>
   <translation>bis {high}</translation>
  </message>
  <message>
   <source>at {value}</source>
   <comment>range</comment>
   <translation>bei {value}</translation>
  </message>
  <message>
   <source>In steady light, from empty; full with the device off. Operations per hour: what the light pays for.</source>
   <translation>Bei gleichmäßigem Licht, ab leer; voll bei ausgeschaltetem Gerät. Vorgänge je Stunde: was das Licht bezahlt.</translation>
  </message>
  <message>
   <source>Empty to full</source>
   <translation>Von leer bis voll</translation>
  </message>
  <message>
   <source>Power in ÷ taken</source>
   <translation>Leistung ein ÷ aus</translation>
  </message>
  <message>
   <source>Full after</source>
   <translation>Voll nach</translation>
  </message>
  <message>
   <source>{place}, {light}: full after {time}; operations an hour: {n}.</source>
   <translation>{place}, {light}: voll nach {time}; Vorgänge je Stunde: {n}.</translation>
  </message>
  <message>
   <source>passes</source>
   <translation>bestanden</translation>
  </message>
  <message>
   <source>passes, below required margin</source>
   <translation>bestanden, aber knapp</translation>
  </message>
  <message>
   <source>fails</source>
   <translation>nicht bestanden</translation>
  </message>
  <message>
   <source>{n} per charge</source>
   <translation>{n} je Ladung</translation>
  </message>
  <message>
   <source>{n} per hour</source>
   <translation>{n} je Stunde</translation>
  </message>
  <message>
   <source>Log a stretch in the light in which the store is not full.</source>
   <translation>Einen Abschnitt im Licht aufzeichnen, in dem der Speicher nicht voll ist.</translation>
  </message>
  <message>
   <source>Log a long dark stretch.</source>
   <translation>Eine lange Dunkelphase aufzeichnen.</translation>
  </message>
  <message>
   <source>Log a run over a wider range of voltage.</source>
   <translation>Über einen weiteren Spannungsbereich aufzeichnen.</translation>
  </message>
  <message>
   <source>Log with several readings within each pulse.</source>
   <translation>Mit mehreren Messwerten je Puls aufzeichnen.</translation>
  </message>
  <message>
   <source>Log more pulses in the dark.</source>
   <translation>Mehr Pulse im Dunkeln aufzeichnen.</translation>
  </message>
  <message>
   <source>Measure it by itself.</source>
   <translation>Den Wert für sich messen.</translation>
  </message>
  <message>
   <source>Both only scale the charging current: measure the panel's short-circuit current, or fit one.</source>
   <translation>Beide ändern nur den Ladestrom: den Kurzschlussstrom des Moduls messen oder nur einen anpassen.</translation>
  </message>
  <message>
   <source>Log a dark stretch: there the light does nothing.</source>
   <translation>Eine Dunkelphase aufzeichnen: Dort bewirkt das Licht nichts.</translation>
  </message>
  <message>
   <source>Log a discharge in the dark through a known resistor.</source>
   <translation>Eine Entladung im Dunkeln über einen bekannten Widerstand aufzeichnen.</translation>
  </message>
  <message>
   <source>Log a dark stretch with the device taken off, and one with it.</source>
   <translation>Eine Dunkelphase ohne das Gerät aufzeichnen und eine mit ihm.</translation>
  </message>
  <message>
   <source>Measure one of them by itself.</source>
   <translation>Einen von beiden für sich messen.</translation>
  </message>
  <message>
   <source>Log a dark stretch with the operations switched off.</source>
   <translation>Eine Dunkelphase mit abgeschalteten Vorgängen aufzeichnen.</translation>
  </message>
  <message>
   <source>Log a pulse through a known resistor.</source>
   <translation>Einen Puls über einen bekannten Widerstand aufzeichnen.</translation>
  </message>
  <message>
   <source>RMS deviation {rms}, mean {bias}, largest {worst} after {time}.</source>
   <translation>Abweichung: effektiv (RMS) {rms}, im Mittel {bias}, höchstens {worst} nach {time}.</translation>
  </message>
  <message>
   <source>The band is the forecast's pulse envelope and {share} of the full voltage on both sides.</source>
   <translation>Das Band ist die Pulshüllkurve der Vorhersage und beidseits {share} der Vollspannung.</translation>
  </message>
  <message>
   <source>The fit reduces the RMS deviation from {before} to {after}.</source>
   <translation>Die Anpassung senkt die Abweichung (RMS) von {before} auf {after}.</translation>
  </message>
  <message>
   <source>The forecast follows the log: every reading lies within its band.</source>
   <translation>Die Vorhersage folgt dem Messlauf: Jeder Messwert liegt in ihrem Band.</translation>
  </message>
  <message>
   <source>Fitting: {n} forecasts so far, {rms} left.</source>
   <translation>Anpassung: bisher {n} Vorhersagen, noch {rms} übrig.</translation>
  </message>
  <message>
   <source>The fit did not converge, so its values are not offered. Fit fewer values, or begin nearer to the log.</source>
   <translation>Die Anpassung ist nicht konvergiert; ihre Werte werden nicht angeboten. Weniger Werte anpassen oder näher am Messlauf beginnen.</translation>
  </message>
  <message>
   <source>The fit leaves {after} of {before}, more than all tolerances together explain: something in this log is not in the design, so no value counts as determined.</source>
   <translation>Die Anpassung lässt {after} von {before} übrig, mehr als alle Toleranzen zusammen erklären: Etwas in diesem Messlauf fehlt im Entwurf, darum gilt kein Wert als bestimmt.</translation>
  </message>
  <message>
   <source>The forecast follows the log; {share} of the readings lie outside of its band.</source>
   <translation>Die Vorhersage folgt dem Messlauf; {share} der Messwerte liegen außerhalb ihres Bandes.</translation>
  </message>
  <message>
   <source>The forecast does not follow the log: {share} of the readings lie outside of its band, first after {time}.</source>
   <translation>Die Vorhersage folgt dem Messlauf nicht: {share} der Messwerte liegen außerhalb ihres Bandes, zuerst nach {time}.</translation>
  </message>
  <message>
   <source>This run cannot tell it apart from {label} (correlation {r}).</source>
   <translation>Dieser Messlauf kann den Wert nicht trennen von: {label} (Korrelation {r}).</translation>
  </message>
  <message>
   <source>The search ended at the limit of its range.</source>
   <translation>Die Suche endete an der Grenze ihres Bereichs.</translation>
  </message>
  <message>
   <source>This run does not determine it.</source>
   <translation>Dieser Messlauf bestimmt den Wert nicht.</translation>
  </message>
  <message>
   <source>± unknown</source>
   <translation>± unbekannt</translation>
  </message>
  <message>
   <source>or up to {most}</source>
   <translation>oder bis zu {most}</translation>
  </message>
  <message>
   <source>The readings alone give ± {own}; the rest is what is not fitted, most of it: {label}.</source>
   <translation>Die Messwerte allein ergeben ± {own}; der Rest ist, was nicht angepasst wird, das meiste davon: {label}.</translation>
  </message>
  <message>
   <source>The readings alone give ± {own}; the rest is what is not fitted.</source>
   <translation>Die Messwerte allein ergeben ± {own}; der Rest ist, was nicht angepasst wird.</translation>
  </message>
  <message>
   <source>Measure this by itself first, and state how well it is known: {label}.</source>
   <translation>Zuerst für sich messen und angeben, wie gut es bekannt ist: {label}.</translation>
  </message>
  <message>
   <source>in a room</source>
   <translation>in einem Raum</translation>
  </message>
  <message>
   <source>{days} {hours}</source>
   <translation>{days} {hours}</translation>
  </message>
  <message>
   <source>out of doors</source>
   <translation>im Freien</translation>
  </message>
  <message>
   <source>at a window</source>
   <translation>an einem Fenster</translation>
  </message>
  <message>
   <source>always dark</source>
   <translation>immer dunkel</translation>
  </message>
  <message>
   <source>every {time}</source>
   <translation>alle {time}</translation>
  </message>
  <message>
   <source>{often}, and {n} more</source>
   <translation>{often}, und {n} weitere</translation>
  </message>
  <message>
   <source>The log is shorter than a day and is repeated end to end, so it has no nights of its own; log for a week or more.</source>
   <translation>Das Protokoll ist kürzer als ein Tag und läuft immer wieder ab; es hat also keine eigenen Nächte. Eine Woche oder länger aufzeichnen.</translation>
  </message>
  <message>
   <source>Every reading is scaled ({scale}), so that the mean while lit is {wanted} in place of the measured {lux}.</source>
   <translation>Jeder Messwert wird skaliert ({scale}), sodass das Mittel bei Licht {wanted} statt der gemessenen {lux} ist.</translation>
  </message>
  <message>
   <source>The whole year is scaled ({scale}), so that its mean while lit is {wanted}.</source>
   <translation>Das ganze Jahr ist skaliert ({scale}), sodass sein Mittel bei Licht {wanted} ist.</translation>
  </message>
  <message>
   <source>The readings are as measured; their mean while lit is {lux}.</source>
   <translation>Die Messwerte sind wie gemessen; ihr Mittel bei Licht ist {lux}.</translation>
  </message>
  <message>
   <source>Inputs that differ</source>
   <translation>Eingaben, die sich unterscheiden</translation>
  </message>
  <message>
   <source>The meter {address} sends “{found}”, which is not one voltage, or a voltage and a light.</source>
   <translation>Das Messgerät {address} sendet „{found}“; das ist weder eine Spannung noch eine Spannung und ein Licht.</translation>
  </message>
  <message>
   <source>{why} Trying again in {time}; what was read is kept.</source>
   <translation>{why} Neuer Versuch in {time}; das Gelesene ist gesichert.</translation>
  </message>
  <message>
   <source>A line without a reading is passed over: “{found}”.</source>
   <translation>Eine Zeile ohne Messwert wird übergangen: „{found}“.</translation>
  </message>
  <message>
   <source>The meter shows {volts}, which is not kept.</source>
   <translation>Das Messgerät zeigt {volts}; das wird nicht gesichert.</translation>
  </message>
  <message>
   <source>{volts} at {clock}; {n} readings kept.</source>
   <translation>{volts} um {clock}; gesicherte Messwerte: {n}.</translation>
  </message>
  <message>
   <source>To read a meter the library PyVISA is needed. Install it with: {command}</source>
   <translation>Um ein Messgerät auszulesen, wird die Bibliothek PyVISA gebraucht. Sie wird installiert mit: {command}</translation>
  </message>
  <message>
   <source>The meter {address} needs a driver that is not installed: {detail}.</source>
   <translation>Das Messgerät {address} braucht einen Treiber, der nicht installiert ist: {detail}.</translation>
  </message>
  <message>
   <source>The meter {address} cannot be reached ({detail}). Is it switched on, and the address right?</source>
   <translation>Das Messgerät {address} ist nicht erreichbar ({detail}). Ist es eingeschaltet und die Adresse richtig?</translation>
  </message>
  <message>
   <source>The meter {address} does not answer. Is its line plugged in, and its interface switched on?</source>
   <translation>Das Messgerät {address} antwortet nicht. Ist das Kabel gesteckt und die Schnittstelle eingeschaltet?</translation>
  </message>
  <message>
   <source>The meter {address} sends “{found}”, in which the comma may be a decimal mark or part two numbers. Let it write a decimal point.</source>
   <translation>Das Messgerät {address} sendet „{found}“; das Komma darin kann ein Dezimalzeichen sein oder zwei Zahlen trennen. Es einen Dezimalpunkt schreiben lassen.</translation>
  </message>
  <message>
   <source>The meter shows an overload; choose a higher range.</source>
   <translation>Das Messgerät zeigt Überlauf; einen höheren Messbereich wählen.</translation>
  </message>
  <message>
   <source>The meter shows {volts}, which is not kept; are its leads swapped?</source>
   <translation>Das Messgerät zeigt {volts}; das wird nicht gesichert. Sind die Messleitungen vertauscht?</translation>
  </message>
  <message>
   <source>{moment}, week {n}</source>
   <translation>{moment}, Woche {n}</translation>
  </message>
  <message>
   <source>LED, warm white 2700 K</source>
   <translation>LED, warmweiß 2700 K</translation>
  </message>
  <message>
   <source>LED, warm white 3000 K</source>
   <translation>LED, warmweiß 3000 K</translation>
  </message>
  <message>
   <source>LED, neutral white 4000 K</source>
   <translation>LED, neutralweiß 4000 K</translation>
  </message>
  <message>
   <source>LED, cool white 5000 K</source>
   <translation>LED, kaltweiß 5000 K</translation>
  </message>
  <message>
   <source>LED, daylight white 6600 K</source>
   <translation>LED, tageslichtweiß 6600 K</translation>
  </message>
  <message>
   <source>LED, violet pumped</source>
   <translation>LED, violett angeregt</translation>
  </message>
  <message>
   <source>Fluorescent, cool white</source>
   <translation>Leuchtstoff, kaltweiß</translation>
  </message>
  <message>
   <source>Fluorescent, 5000 K</source>
   <translation>Leuchtstoff, 5000 K</translation>
  </message>
  <message>
   <source>Fluorescent, three-band 4000 K</source>
   <translation>Leuchtstoff, Dreibanden 4000 K</translation>
  </message>
  <message>
   <source>Incandescent</source>
   <translation>Glühlampe</translation>
  </message>
  <message>
   <source>Daylight behind glass</source>
   <translation>Tageslicht hinter Glas</translation>
  </message>
  <message>
   <source>Daylight, open sky</source>
   <translation>Tageslicht im Freien</translation>
  </message>
  <message>
   <source>Lux meter at the panel</source>
   <translation>Luxmeter am Modul</translation>
  </message>
  <message>
   <source>Phone app or lamp data</source>
   <translation>Handy-App oder Lampendaten</translation>
  </message>
  <message>
   <source>A guess</source>
   <translation>Geschätzt</translation>
  </message>
  <message>
   <source>The same at every hour</source>
   <translation>Zu jeder Stunde gleich</translation>
  </message>
  <message>
   <source>Weekly timetable</source>
   <translation>Wochenplan</translation>
  </message>
  <message>
   <source>Measured light log</source>
   <translation>Lichtprotokoll</translation>
  </message>
  <message>
   <source>A year of daylight</source>
   <translation>Ein Jahr Tageslicht</translation>
  </message>
  <message>
   <source>Out of doors</source>
   <translation>Im Freien</translation>
  </message>
  <message>
   <source>In a room</source>
   <translation>Im Raum</translation>
  </message>
  <message>
   <source>No, or plain glass</source>
   <translation>Nein, oder einfaches Glas</translation>
  </message>
  <message>
   <source>Coated window glass</source>
   <translation>Beschichtetes Fensterglas</translation>
  </message>
  <message>
   <source>The sky alone</source>
   <translation>Nur der Himmel</translation>
  </message>
  <message>
   <source>Sky and sun</source>
   <translation>Himmel und Sonne</translation>
  </message>
  <message>
   <source>Overcast</source>
   <translation>Bedeckt</translation>
  </message>
  <message>
   <source>Blinds open</source>
   <translation>Jalousien offen</translation>
  </message>
  <message>
   <source>Blinds closed</source>
   <translation>Jalousien zu</translation>
  </message>
  <message>
   <source>Count as dark</source>
   <translation>Als dunkel zählen</translation>
  </message>
  <message>
   <source>Hold the last reading</source>
   <translation>Letzten Messwert halten</translation>
  </message>
  <message>
   <source>As the file says</source>
   <translation>Wie die Datei sagt</translation>
  </message>
  <message>
   <source>Day first</source>
   <translation>Tag zuerst</translation>
  </message>
  <message>
   <source>Month first</source>
   <translation>Monat zuerst</translation>
  </message>
  <message>
   <source>Year first</source>
   <translation>Jahr zuerst</translation>
  </message>
  <message>
   <source>Comma</source>
   <translation>Komma</translation>
  </message>
  <message>
   <source>Hours and minutes</source>
   <translation>Stunden und Minuten</translation>
  </message>
  <message>
   <source>Minutes and seconds</source>
   <translation>Minuten und Sekunden</translation>
  </message>
  <message>
   <source>Amorphous silicon</source>
   <translation>Amorphes Silizium</translation>
  </message>
  <message>
   <source>Crystalline silicon</source>
   <translation>Kristallines Silizium</translation>
  </message>
  <message>
   <source>Gallium arsenide</source>
   <translation>Galliumarsenid</translation>
  </message>
  <message>
   <source>Dye-sensitised</source>
   <translation>Farbstoffzelle</translation>
  </message>
  <message>
   <source>Organic</source>
   <translation>Organisch</translation>
  </message>
  <message>
   <source>Perovskite</source>
   <translation>Perowskit</translation>
  </message>
  <message>
   <source>Direct, through a diode</source>
   <translation>Direkt, über eine Diode</translation>
  </message>
  <message>
   <source>Switching converter</source>
   <translation>Schaltwandler</translation>
  </message>
  <message>
   <source>A fraction of open-circuit voltage</source>
   <translation>Anteil der Leerlaufspannung</translation>
  </message>
  <message>
   <source>Maximum power</source>
   <translation>Maximale Leistung</translation>
  </message>
  <message>
   <source>Electrolytic or film capacitor</source>
   <translation>Elektrolyt- oder Folienkondensator</translation>
  </message>
  <message>
   <source>Supercapacitor bank</source>
   <translation>Superkondensatorbank</translation>
  </message>
  <message>
   <source>Rechargeable lithium cell</source>
   <translation>Lithium-Akkuzelle</translation>
  </message>
  <message>
   <source>Resistors</source>
   <translation>Widerstände</translation>
  </message>
  <message>
   <source>Active</source>
   <translation>Aktiv</translation>
  </message>
  <message>
   <source>Settled</source>
   <translation>Stabil</translation>
  </message>
  <message>
   <source>First days</source>
   <translation>Erste Tage</translation>
  </message>
  <message>
   <source>Lithium-ion</source>
   <translation>Lithium-Ionen</translation>
  </message>
  <message>
   <source>Lithium iron phosphate</source>
   <translation>Lithium-Eisenphosphat</translation>
  </message>
  <message>
   <source>Lithium titanate</source>
   <translation>Lithiumtitanat</translation>
  </message>
  <message>
   <source>Linear</source>
   <translation>Linear</translation>
  </message>
  <message>
   <source>Switching</source>
   <translation>Schaltend</translation>
  </message>
  <message>
   <source>At a fixed interval</source>
   <translation>In festem Abstand</translation>
  </message>
  <message>
   <source>Whenever the store is ready</source>
   <translation>Sobald der Speicher bereit ist</translation>
  </message>
  <message>
   <source>Until the store gives out</source>
   <translation>Bis der Speicher leer ist</translation>
  </message>
  <message>
   <source>Latching valve</source>
   <translation>Bistabiles Ventil</translation>
  </message>
  <message>
   <source>Vent or flap</source>
   <translation>Lüftung oder Klappe</translation>
  </message>
  <message>
   <source>Door lock</source>
   <translation>Türschloss</translation>
  </message>
  <message>
   <source>Other motor</source>
   <translation>Anderer Motor</translation>
  </message>
  <message>
   <source>Mon</source>
   <translation>Mo</translation>
  </message>
  <message>
   <source>Tue</source>
   <translation>Di</translation>
  </message>
  <message>
   <source>Wed</source>
   <translation>Mi</translation>
  </message>
  <message>
   <source>Thu</source>
   <translation>Do</translation>
  </message>
  <message>
   <source>Fri</source>
   <translation>Fr</translation>
  </message>
  <message>
   <source>Sat</source>
   <translation>Sa</translation>
  </message>
  <message>
   <source>Sun</source>
   <translation>So</translation>
  </message>
  <message>
   <source>{label} has changed by {change} ({low} to {high}) in {time}: {before} then, {after} now.</source>
   <translation>{label} hat sich in {time} um {change} geändert ({low} bis {high}): {before} damals, {after} jetzt.</translation>
  </message>
  <message>
   <source>Measure next: {what}.</source>
   <translation>Als Nächstes messen: {what}.</translation>
  </message>
  <message>
   <source>Light, temperature, the clock and a current that was drawn count anew each time.</source>
   <translation>Licht, Temperatur, Uhr und ein entnommener Strom zählen jedes Mal neu.</translation>
  </message>
  <message>
   <source>{label}: these runs do not tell whether it has changed.</source>
   <translation>{label}: Diese Messläufe sagen nicht, ob es sich geändert hat.</translation>
  </message>
  <message>
   <source>{label}: no change is seen; {before} then, {after} now, a change of {change} of which all from {low} to {high} is possible.</source>
   <translation>{label}: keine Änderung zu sehen; {before} damals, {after} jetzt, eine Änderung von {change}, wobei alles von {low} bis {high} möglich ist.</translation>
  </message>
  <message>
   <source>{label} has changed by {change} ({low} to {high}): {before} then, {after} now.</source>
   <translation>{label} hat sich um {change} geändert ({low} bis {high}): {before} damals, {after} jetzt.</translation>
  </message>
  <message>
   <source>None of the measurements that were looked at would narrow the ± of these values by much.</source>
   <translation>Keine der betrachteten Messungen würde das ± dieser Werte viel eingrenzen.</translation>
  </message>
  <message>
   <source>{label} from {now} to {then}</source>
   <translation>{label} von {now} auf {then}</translation>
  </message>
  <message>
   <source>Taken as the same both times: {things}. Their errors move both values alike and hardly count in the change.</source>
   <translation>Beide Male als gleich angenommen: {things}. Ihre Fehler verschieben beide Werte gleich und zählen in der Änderung kaum.</translation>
  </message>
  <message>
   <source>It is assumed that the same meters were used both times.</source>
   <translation>Angenommen ist, dass beide Male dieselben Messgeräte dienten.</translation>
  </message>
  <message>
   <source>Other meters were used the second time, so their errors count twice.</source>
   <translation>Beim zweiten Mal dienten andere Messgeräte, ihre Fehler zählen also doppelt.</translation>
  </message>
  <message>
   <source>Expected:</source>
   <translation>Erwartet:</translation>
  </message>
  <message>
   <source>A lux meter weighs light as the eye does, so the same reading means different things to a cell: watts and current depend on the source.</source>
   <translation>Ein Luxmeter bewertet Licht wie das Auge. Derselbe Messwert bedeutet für eine Zelle daher Verschiedenes: Watt und Strom hängen von der Quelle ab.</translation>
  </message>
  <message>
   <source>Panel by technology, no data sheet: modules on sale give {low} to {high} times the output computed here.</source>
   <translation>Modul nach Technologie, ohne Datenblatt: Käufliche Module geben das {low}- bis {high}-Fache des hier berechneten Ertrags.</translation>
  </message>
  <message>
   <source>At {volts} it charges with {current}.</source>
   <translation>Bei {volts} lädt er mit {current}.</translation>
  </message>
  <message>
   <source>{n} rows, {least} to {most}: {low} to {high} % arrive.</source>
   <translation>{n} Zeilen, {least} bis {most}: {low} bis {high} % kommen an.</translation>
  </message>
  <message>
   <source>Row {n} still lacks: {what}.</source>
   <translation>Zeile {n} fehlt noch: {what}.</translation>
  </message>
  <message>
   <source>What {light} mean to {cell}</source>
   <translation>Was {light} bedeuten: {cell}</translation>
  </message>
  <message>
   <source>{light} of it are {irradiance} W/m² and {current} µA/cm².</source>
   <translation>{light} davon sind {irradiance} W/m² und {current} µA/cm².</translation>
  </message>
  <message>
   <source>No light reaches the panel.</source>
   <translation>Kein Licht erreicht das Modul.</translation>
  </message>
  <message>
   <source>At {light}, of which {rest} reach the cells, the panels give at most {power}, at {voltage}.</source>
   <translation>Bei {light}, wovon {rest} die Zellen erreichen, geben die Module höchstens {power} ab, bei {voltage}.</translation>
  </message>
  <message>
   <source>At {light} the panels give at most {power}, at {voltage}.</source>
   <translation>Bei {light} geben die Module höchstens {power} ab, bei {voltage}.</translation>
  </message>
  <message>
   <source>It does not run in this light.</source>
   <translation>In diesem Licht läuft er nicht.</translation>
  </message>
  <message>
   <source>Of {power} it passes on {share} %.</source>
   <translation>Von {power} gibt er {share} % weiter.</translation>
  </message>
  <message>
   <source>None: efficiency, fixed loss and loss resistance count.</source>
   <translation>Keine: Es gelten Wirkungsgrad, fester Verlust und Verlustwiderstand.</translation>
  </message>
  <message>
   <source>One row: of {power} {share} % arrive.</source>
   <translation>Eine Zeile: Von {power} kommen {share} % an.</translation>
  </message>
  <message>
   <source>Chargers</source>
   <translation>Laderegler</translation>
  </message>
  <message>
   <source>Stores</source>
   <translation>Speicher</translation>
  </message>
  <message>
   <source>Loads</source>
   <translation>Lasten</translation>
  </message>
  <message>
   <source>{label} measured as {value} ± {plus_minus}</source>
   <translation>{label} gemessen als {value} ± {plus_minus}</translation>
  </message>
  <message>
   <source>1 cell</source>
   <translation>1 Zelle</translation>
  </message>
  <message>
   <source>{n} cells in series</source>
   <translation>{n} Zellen in Reihe</translation>
  </message>
  <message>
   <source>data sheet of 1 point</source>
   <translation>Datenblatt mit 1 Punkt</translation>
  </message>
  <message>
   <source>data sheet of {n} points</source>
   <translation>Datenblatt mit {n} Punkten</translation>
  </message>
  <message>
   <source>1 operation</source>
   <translation>1 Vorgang</translation>
  </message>
  <message>
   <source>{n} operations</source>
   <translation>{n} Vorgänge</translation>
  </message>
  <message>
   <source>No part of your own.</source>
   <translation>Kein eigenes Bauteil.</translation>
  </message>
  <message>
   <source>Part: {name}; changed since it was taken.</source>
   <translation>Bauteil: {name}; seit der Übernahme geändert.</translation>
  </message>
  <message>
   <source>Part: {name}.</source>
   <translation>Bauteil: {name}.</translation>
  </message>
  <message>
   <source>full at {volts}</source>
   <translation>voll bei {volts}</translation>
  </message>
  <message>
   <source>asleep {current}</source>
   <translation>im Schlaf {current}</translation>
  </message>
  <message>
   <source>changed since</source>
   <translation>seitdem geändert</translation>
  </message>
  <message>
   <source>as it was taken</source>
   <translation>wie übernommen</translation>
  </message>
  <message>
   <source>not named</source>
   <translation>nicht genannt</translation>
  </message>
  <message>
   <source>{n} in series</source>
   <translation>{n} in Reihe</translation>
  </message>
  <message>
   <source>Nobody can tell without knowing the light. A lux meter costs little: hold it where the panel will be, facing as it will face, once by day and once in the evening, and come back with the figure.</source>
   <translation>Ohne das Licht zu kennen, kann das niemand sagen. Ein Luxmeter kostet wenig: es dorthin halten, wo das Modul sein wird, ebenso ausgerichtet, einmal am Tag und einmal am Abend, und mit der Zahl wiederkommen.</translation>
  </message>
  <message>
   <source>The panels together are about as large as {area}, the store about as large as {volume}.</source>
   <translation>Die Module sind zusammen etwa so groß wie {area}, der Speicher etwa so groß wie {volume}.</translation>
  </message>
  <message>
   <source>But {area} cm² of panels is more than such a device should carry: more light, or less frequent work, would make it smaller.</source>
   <translation>Aber {area} cm² Module sind mehr, als ein solches Gerät tragen sollte: Mehr Licht oder seltenere Arbeit würde es kleiner machen.</translation>
  </message>
  <message>
   <source>{level} (midday in {month}, dull sky)</source>
   <translation>{level} (mittags im {month}, trüber Himmel)</translation>
  </message>
  <message>
   <source>Neither more light nor less frequent work alone is enough.</source>
   <translation>Weder mehr Licht noch selteneres Arbeiten allein reicht.</translation>
  </message>
  <message>
   <source>Panels and store are yours: {panels}; {store}. Together they cost {price}, the least of your parts that run here.</source>
   <translation>Module und Speicher sind Ihre eigenen: {panels}; {store}. Zusammen kosten sie {price}, das Wenigste von Ihren Bauteilen, mit dem es hier läuft.</translation>
  </message>
  <message>
   <source>Your parts: none of your panels with any of your stores runs here.</source>
   <translation>Ihre Bauteile: Keines Ihrer Module läuft hier mit einem Ihrer Speicher.</translation>
  </message>
  <message>
   <source>Nobody can tell without knowing what the device takes. Measure its current over one run and while it sleeps, or look up how long a battery lasts in it; a logged current can be read by File &gt; Read a load capture.</source>
   <translation>Ohne zu wissen, was das Gerät braucht, kann das niemand sagen. Seinen Strom über einen Vorgang und im Schlaf messen oder nachsehen, wie lange eine Batterie darin reicht; ein aufgezeichneter Strom lässt sich über das Menü Datei einlesen.</translation>
  </message>
  <message>
   <source>The panels together are about as large as {area}.</source>
   <translation>Die Module zusammen sind etwa so groß wie {area}.</translation>
  </message>
  <message>
   <source>It would run from {light} at such a place; or with the same work {often}, and parts to match.</source>
   <translation>Es liefe ab {light} an einem solchen Ort; oder mit derselben Arbeit {often} und passenden Teilen.</translation>
  </message>
  <message>
   <source>It would run from {light} at such a place.</source>
   <translation>Es liefe ab {light} an einem solchen Ort.</translation>
  </message>
  <message>
   <source>It would run with about {light} at such a place, or with the same work {often}, and suitable parts.</source>
   <translation>Es liefe mit etwa {light} an einem solchen Ort oder mit derselben Arbeit {often}, jeweils mit passenden Bauteilen.</translation>
  </message>
  <message>
   <source>It would run with light of about {light} at such a place, and parts to match.</source>
   <translation>Es liefe mit etwa {light} an einem solchen Ort und mit passenden Bauteilen.</translation>
  </message>
  <message>
   <source>It would run with the same work {often}, and parts to match.</source>
   <translation>Es liefe mit derselben Arbeit {often} und mit passenden Bauteilen.</translation>
  </message>
  <message>
   <source>Your parts: their prices count once both a panel and a store of yours have one, in one currency.</source>
   <translation>Ihre Bauteile: Ihre Preise zählen, sobald ein Modul und ein Speicher von Ihnen einen haben, in einer Währung.</translation>
  </message>
  <message>
   <source>Show it with {light} on the panel</source>
   <translation>Mit {light} am Modul zeigen</translation>
  </message>
  <message>
   <source>Show it working {often}</source>
   <translation>Zeigen, wenn es {often} arbeitet</translation>
  </message>
  <message>
   <source>not known</source>
   <translation>nicht bekannt</translation>
  </message>
  <message>
   <source>{price} (relative)</source>
   <translation>{price} (relativ)</translation>
  </message>
  <message>
   <source>Store voltage over {time}: from {first} to {last}, highest {highest}, lowest in a pulse {lowest}, connects {n} times.</source>
   <translation>Speicherspannung über {time}: von {first} bis {last}, höchste {highest}, tiefste im Puls {lowest}, schaltet {n}-mal ein.</translation>
  </message>
  <message>
   <source>{reached}; {wanted} required</source>
   <translation>{reached}; {wanted} verlangt</translation>
  </message>
  <message>
   <source>Δ time from the mark</source>
   <translation>Δ Zeit ab der Marke</translation>
  </message>
  <message>
   <source>Δ store</source>
   <translation>Δ Speicher</translation>
  </message>
  <message>
   <source>charge gained</source>
   <translation>gewonnene Ladung</translation>
  </message>
  <message>
   <source>mean charging</source>
   <translation>Laden im Mittel</translation>
  </message>
  <message>
   <source>mean load</source>
   <translation>Last im Mittel</translation>
  </message>
  <message>
   <source>mean leakage</source>
   <translation>Leckstrom im Mittel</translation>
  </message>
  <message>
   <source>lowest</source>
   <translation>tiefste</translation>
  </message>
  <message>
   <source>minimum</source>
   <translation>Minimum</translation>
  </message>
  <message>
   <source>{check}: {state}, {value}, margin {margin}</source>
   <translation>{check}: {state}, {value}, Faktor {margin}</translation>
  </message>
  <message>
   <source>not followed so far</source>
   <translation>nicht so weit verfolgt</translation>
  </message>
  <message>
   <source>charging</source>
   <translation>Ladestrom</translation>
  </message>
  <message>
   <source>load</source>
   <translation>Verbraucher</translation>
  </message>
  <message>
   <source>light ({scale})</source>
   <translation>Licht ({scale})</translation>
  </message>
  <message>
   <source>input should be greater than or equal to {ge}</source>
   <translation>muss mindestens {ge} sein</translation>
  </message>
  <message>
   <source>input should be less than or equal to {le}</source>
   <translation>darf höchstens {le} sein</translation>
  </message>
  <message>
   <source>input should be a finite number</source>
   <translation>muss eine endliche Zahl sein</translation>
  </message>
  <message>
   <source>input should be a valid number</source>
   <translation>muss eine Zahl sein</translation>
  </message>
  <message>
   <source>input should be a valid number, unable to parse string as a number</source>
   <translation>muss eine Zahl sein; der Text ist keine</translation>
  </message>
  <message>
   <source>input should be a valid integer</source>
   <translation>muss eine ganze Zahl sein</translation>
  </message>
  <message>
   <source>input should be a valid integer, unable to parse string as an integer</source>
   <translation>muss eine ganze Zahl sein; der Text ist keine</translation>
  </message>
  <message>
   <source>input should be a valid integer, got a number with a fractional part</source>
   <translation>muss eine ganze Zahl sein, ohne Nachkommastellen</translation>
  </message>
  <message>
   <source>input should be a valid boolean</source>
   <translation>muss true oder false sein</translation>
  </message>
  <message>
   <source>input should be a valid string</source>
   <translation>muss ein Text sein</translation>
  </message>
  <message>
   <source>string should have at most {max_length} characters</source>
   <translation>darf höchstens {max_length} Zeichen haben</translation>
  </message>
  <message>
   <source>input should be a valid array</source>
   <translation>muss eine Liste sein</translation>
  </message>
  <message>
   <source>input should be {expected}</source>
   <translation>muss {expected} sein</translation>
  </message>
  <message>
   <source>{label} takes {low} to {high}.</source>
   <translation>{label}: zulässig ist {low} bis {high}.</translation>
  </message>
  <message>
   <source>“{label}”</source>
   <translation>„{label}“</translation>
  </message>
  <message>
   <source>There is nothing to change at {path}.</source>
   <translation>An der Stelle {path} ist nichts zu ändern.</translation>
  </message>
  <message>
   <source>{label}: not allowed here.</source>
   <translation>{label}: hier nicht zulässig.</translation>
  </message>
  <message>
   <source>{check} {margin}</source>
   <translation>{check} {margin}</translation>
  </message>
  <message>
   <source>no other margin falls</source>
   <translation>kein anderer Faktor sinkt</translation>
  </message>
  <message>
   <source>{check} falls to {margin}</source>
   <translation>{check} sinkt auf {margin}</translation>
  </message>
  <message>
   <source>Point {n}: {fault}.</source>
   <translation>Punkt {n}: {fault}.</translation>
  </message>
  <message>
   <source>Point {n}: of {points} measured points the curve misses {mean} of the short-circuit current (RMS), {most} at most.</source>
   <translation>Punkt {n}: Von {points} gemessenen Punkten weicht die Kurve um {mean} des Kurzschlussstroms ab (RMS), höchstens um {most}.</translation>
  </message>
  <message>
   <source>Point {n} still lacks: {what}.</source>
   <translation>Punkt {n} fehlt noch: {what}.</translation>
  </message>
  <message>
   <source>{what}: not on the sheet, filled in by the cell technology ({technology}).</source>
   <translation>{what}: nicht im Datenblatt, aus der Zelltechnologie ergänzt ({technology}).</translation>
  </message>
  <message>
   <source>The curve passes within {percent} of the only value.</source>
   <translation>Die Kennlinie trifft den einzigen Wert bis auf {percent}.</translation>
  </message>
  <message>
   <source>The curves pass within {percent} of {n} values.</source>
   <translation>Die Kennlinien treffen {n} Werte bis auf {percent}.</translation>
  </message>
  <message>
   <source>{level}, {lamp}</source>
   <translation>{level}, {lamp}</translation>
  </message>
  <message>
   <source>None: the curve follows from technology and area.</source>
   <translation>Keines: Die Kennlinie folgt aus Technologie und Fläche.</translation>
  </message>
  <message>
   <source>Its lines contradict each other.</source>
   <translation>Seine Zeilen widersprechen einander.</translation>
  </message>
  <message>
   <source>Photocurrent at {light}</source>
   <translation>Fotostrom bei {light}</translation>
  </message>
  <message>
   <source>Saturation current</source>
   <translation>Sättigungsstrom</translation>
  </message>
  <message>
   <source>Ideality of each cell</source>
   <translation>Idealitätsfaktor je Zelle</translation>
  </message>
  <message>
   <source>Series resistance</source>
   <translation>Serienwiderstand</translation>
  </message>
  <message>
   <source>Shunt at {light}</source>
   <translation>Parallelwiderstand bei {light}</translation>
  </message>
  <message>
   <source>Fill factor at {light}</source>
   <translation>Füllfaktor bei {light}</translation>
  </message>
  <message>
   <source>a fingernail</source>
   <translation>ein Fingernagel</translation>
  </message>
  <message>
   <source>a postage stamp</source>
   <translation>eine Briefmarke</translation>
  </message>
  <message>
   <source>two postage stamps</source>
   <translation>zwei Briefmarken</translation>
  </message>
  <message>
   <source>half a bank card</source>
   <translation>eine halbe Bankkarte</translation>
  </message>
  <message>
   <source>a bank card</source>
   <translation>eine Bankkarte</translation>
  </message>
  <message>
   <source>two bank cards</source>
   <translation>zwei Bankkarten</translation>
  </message>
  <message>
   <source>a postcard</source>
   <translation>eine Postkarte</translation>
  </message>
  <message>
   <source>half a sheet of writing paper</source>
   <translation>ein halbes Blatt Schreibpapier</translation>
  </message>
  <message>
   <source>a sheet of writing paper (A4)</source>
   <translation>ein Blatt Schreibpapier (A4)</translation>
  </message>
  <message>
   <source>two sheets of writing paper (A4)</source>
   <translation>zwei Blatt Schreibpapier (A4)</translation>
  </message>
  <message>
   <source>a lentil</source>
   <translation>eine Linse</translation>
  </message>
  <message>
   <source>a pea</source>
   <translation>eine Erbse</translation>
  </message>
  <message>
   <source>a coin cell of 20 mm</source>
   <translation>eine Knopfzelle von 20 mm</translation>
  </message>
  <message>
   <source>an AAA battery</source>
   <translation>eine AAA-Batterie</translation>
  </message>
  <message>
   <source>an AA battery</source>
   <translation>eine AA-Batterie</translation>
  </message>
  <message>
   <source>a matchbox</source>
   <translation>eine Streichholzschachtel</translation>
  </message>
  <message>
   <source>a D battery</source>
   <translation>eine D-Batterie</translation>
  </message>
  <message>
   <source>a drink can</source>
   <translation>eine Getränkedose</translation>
  </message>
  <message>
   <source>a carton of milk</source>
   <translation>eine Milchtüte</translation>
  </message>
  <message>
   <source>No: with {panels} and {store} this light is not enough.</source>
   <translation>Nein: Mit {panels} und {store} reicht dieses Licht nicht.</translation>
  </message>
  <message>
   <source>{n} panels of {area} cm² ({total} cm² in all)</source>
   <comment>after with</comment>
   <translation>{n} Modulen zu {area} cm² (zusammen {total} cm²)</translation>
  </message>
  <message>
   <source>a supercapacitor store of {size}</source>
   <comment>after with</comment>
   <translation>einem Superkondensator-Speicher von {size}</translation>
  </message>
  <message>
   <source>from empty it needs {time} until it is ready, and {allowed} are allowed</source>
   <translation>mit leerem Speicher braucht es {time}, bis es betriebsbereit ist, erlaubt sind {allowed}</translation>
  </message>
  <message>
   <source>the light brings {factor} times the energy that it uses</source>
   <translation>das Licht bringt das {factor}-Fache des Bedarfs</translation>
  </message>
  <message>
   <source>it lasts {time} in the dark and must last {needed}</source>
   <translation>es hält im Dunkeln {time} durch und muss {needed} durchhalten</translation>
  </message>
  <message>
   <source>when it works the voltage dips to {volts}, and the device needs {need}</source>
   <translation>wenn es arbeitet, fällt die Spannung auf {volts}, und das Gerät braucht {need}</translation>
  </message>
  <message>
   <source>a part would be at {value} and is made for {limit}</source>
   <translation>ein Bauteil bekäme {value} und ist für {limit} ausgelegt</translation>
  </message>
  <message>
   <source>it gets {share} % of its work done</source>
   <translation>es erledigt {share} % seiner Arbeit</translation>
  </message>
  <message>
   <source>Yes: with {panels} and {store} it can live on this light.</source>
   <translation>Ja: Mit {panels} und {store} kann es von diesem Licht leben.</translation>
  </message>
  <message>
   <source>Marginal: with {panels} and {store} it works, but with less margin than required.</source>
   <translation>Knapp: Mit {panels} und {store} geht es, aber mit weniger Spielraum als verlangt.</translation>
  </message>
  <message>
   <source>No: with {panels} and {store} it does not start soon enough.</source>
   <translation>Nein: Mit {panels} und {store} startet es nicht früh genug.</translation>
  </message>
  <message>
   <source>1 panel of {area} cm²</source>
   <comment>after with</comment>
   <translation>1 Modul zu {area} cm²</translation>
  </message>
  <message>
   <source>a rechargeable cell of {size}</source>
   <comment>after with</comment>
   <translation>einer Akkuzelle von {size}</translation>
  </message>
  <message>
   <source>a capacitor of {size}</source>
   <comment>after with</comment>
   <translation>einem Kondensator von {size}</translation>
  </message>
  <message>
   <source>Tightest point: {reason}; it starts {time} after the light first comes on.</source>
   <translation>Engste Stelle: {reason}; Start {time} nach dem ersten Licht.</translation>
  </message>
  <message>
   <source>{reason}; {factor} times what is needed is asked for.</source>
   <translation>{reason}; verlangt ist das {factor}-Fache des Nötigen.</translation>
  </message>
  <message>
   <source>starting empty it never gets going, however long it hangs there</source>
   <translation>mit leerem Speicher kommt es nie in Gang, egal wie lange es hängt</translation>
  </message>
  <message>
   <source>the light brings more than ten times the energy that it uses</source>
   <translation>das Licht bringt mehr als das Zehnfache der Energie, die es verbraucht</translation>
  </message>
  <message>
   <source>the light brings less than 1 % of the energy that it uses</source>
   <translation>das Licht bringt weniger als 1 % der Energie, die es verbraucht</translation>
  </message>
  <message>
   <source>the light brings {share} % of the energy that it uses</source>
   <translation>das Licht bringt {share} % der Energie, die es verbraucht</translation>
  </message>
  <message>
   <source>the light never brings its store anything</source>
   <translation>das Licht bringt dem Speicher nie etwas</translation>
  </message>
  <message>
   <source>there is enough light at all times</source>
   <translation>es ist immer genug Licht da</translation>
  </message>
  <message>
   <source>it has no charge left for the dark and must last {time}</source>
   <translation>im Dunkeln reicht es gar nicht; verlangt sind {time}</translation>
  </message>
  <message>
   <source>it lasts a little less in the dark than the {needed} it must</source>
   <translation>es hält im Dunkeln etwas kürzer durch als die nötigen {needed}</translation>
  </message>
  <message>
   <source>its store cannot deliver what a pulse takes; the voltage collapses</source>
   <translation>sein Speicher kann nicht liefern, was ein Puls braucht; die Spannung bricht zusammen</translation>
  </message>
  <message>
   <source>its parts stay within what they are made for</source>
   <translation>seine Bauteile bleiben in dem, wofür sie gemacht sind</translation>
  </message>
  <message>
   <source>it reaches {value} where {limit} is asked for</source>
   <translation>es erreicht {value}, verlangt sind {limit}</translation>
  </message>
  <message>
   <source>The tightest point: {reason}.</source>
   <translation>Engster Punkt – {reason}.</translation>
  </message>
  <message>
   <source>The tightest point: {reason}; it starts at once.</source>
   <translation>Engster Punkt – {reason}; Start sofort.</translation>
  </message>
  <message>
   <source>The light of this scenario repeats every week or with its log, so its year is one week after the other. Choose “{choice}” under “{label}” to see the seasons.</source>
   <translation>Das Licht dieses Szenarios wiederholt sich jede Woche oder mit seinem Protokoll; sein Jahr ist eine Woche nach der anderen. Für die Jahreszeiten unter „{label}“ die Wahl „{choice}“ treffen.</translation>
  </message>
  <message>
   <source>Off on {n} of {days} days; without a gap it works from {first} to {last}.</source>
   <translation>An {n} von {days} Tagen aus; ohne Lücke arbeitet es von {first} bis {last}.</translation>
  </message>
  <message>
   <source>Longest dark stretch: {time}, from {first}, {begin}, to {last}, {end}.</source>
   <translation>Längste Dunkelzeit: {time}, von {first}, {begin}, bis {last}, {end}.</translation>
  </message>
  <message>
   <source>Worst months, each by itself: {list}.</source>
   <translation>Schlechteste Monate, jeder für sich: {list}.</translation>
  </message>
  <message>
   <source>{date}: brightest hour {lux}, store {low} to {high}.</source>
   <translation>{date}: hellste Stunde {lux}, Speicher {low} bis {high}.</translation>
  </message>
  <message>
   <source>A year like this takes {share} % of the store's life: {cycles} full cycles, {mean} °C on average, {high} % of the time near full. After {years} years {left} % of its size is left and its resistance is {times} times that of a new one.</source>
   <translation>Ein solches Jahr kostet {share} % des Speicherlebens: {cycles} Vollzyklen, im Mittel {mean} °C, {high} % der Zeit fast voll. Nach {years} Jahren bleiben {left} % seiner Größe, und sein Widerstand ist das {times}-Fache eines neuen.</translation>
  </message>
  <message>
   <source>Judge after {years} years</source>
   <translation>Nach {years} Jahren beurteilen</translation>
  </message>
  <message>
   <source>The device runs until the store gives out and rests until it has filled again; the tightest month is {month}.</source>
   <translation>Das Gerät läuft, bis der Speicher leer ist, und ruht, bis er wieder gefüllt ist; der knappste Monat ist {month}.</translation>
  </message>
  <message>
   <source>The device is never off; the tightest month is {month}.</source>
   <translation>Das Gerät ist nie aus; der knappste Monat ist {month}.</translation>
  </message>
  <message>
   <source>The device is off at some hour of every day.</source>
   <translation>Das Gerät ist an jedem Tag irgendwann aus.</translation>
  </message>
  <message>
   <source>There is no dark stretch.</source>
   <translation>Es gibt keine Dunkelzeit.</translation>
  </message>
  <message>
   <source>{date}: brightest hour {lux}, store {low} to {high}, off for {n} h.</source>
   <translation>{date}: hellste Stunde {lux}, Speicher {low} bis {high}, {n} h aus.</translation>
  </message>
  <message>
   <source>Judge as new</source>
   <translation>Als neu beurteilen</translation>
  </message>
  <message>
   <source>{check} {month} ({margin})</source>
   <translation>{check} {month} ({margin})</translation>
  </message>
  <message>
   <source>{word} when new; {then} from year {years} on.</source>
   <translation>{word}, wenn neu; {then} ab dem Jahr {years}.</translation>
  </message>
  <message>
   <source>{word} when new, and so it stays for {years} years and more.</source>
   <translation>{word}, wenn neu, und das bleibt {years} Jahre und länger so.</translation>
  </message>
  <message>
   <source>The name of the scenario, shown at the head of the window and of every report.</source>
   <translation>Der Name des Szenarios; er steht oben im Fenster und über jedem Bericht.</translation>
  </message>
  <message>
   <source>A device and its job, such as “Soil probe, bench 4”.</source>
   <translation>Ein Gerät und seine Aufgabe, etwa „Bodensonde, Tisch 4“.</translation>
  </message>
  <message>
   <source>You choose it.</source>
   <translation>Frei wählbar.</translation>
  </message>
  <message>
   <source>By definition.</source>
   <translation>Per Definition.</translation>
  </message>
  <message>
   <source>Where the device hangs. A note for the reader; nothing is computed from it.</source>
   <translation>Wo das Gerät hängt. Ein Hinweis für die Leser; es wird nichts daraus berechnet.</translation>
  </message>
  <message>
   <source>A room, a wall, a height.</source>
   <translation>Ein Raum, eine Wand, eine Höhe.</translation>
  </message>
  <message>
   <source>Anything the next reader should know: who measured what, when, and what was assumed.</source>
   <translation>Was die nächsten Leser wissen sollten: wer was wann gemessen hat und was angenommen wurde.</translation>
  </message>
  <message>
   <source>A few lines.</source>
   <translation>Einige Zeilen.</translation>
  </message>
  <message>
   <source>You write it.</source>
   <translation>Selbst zu schreiben.</translation>
  </message>
  <message>
   <source>How brightly the place is lit while the light is on. It is the light that the panel sees that counts, so hold the meter where the panel will hang and turn it as the panel will face.</source>
   <translation>Wie hell der Ort bei eingeschaltetem Licht beleuchtet ist. Es zählt das Licht, das das Modul sieht: Das Messgerät dort halten, wo das Modul hängen wird, und so ausrichten wie das Modul.</translation>
  </message>
  <message>
   <source>Corridor 100 lx, stairs 150 lx, desk 500 lx, all lighting design values on the work surface; a wall often gets a third. Bright workplace near a window about 1300 lx.</source>
   <translation>Flur 100 lx, Treppe 150 lx, Schreibtisch 500 lx, alles Planungswerte auf der Nutzebene; eine Wand bekommt oft ein Drittel davon. Heller Arbeitsplatz in Fensternähe etwa 1300 lx.</translation>
  </message>
  <message>
   <source>On a lux meter. A phone is no measuring instrument; its reading may be off by half.</source>
   <translation>Auf einem Luxmeter. Ein Handy ist kein Messgerät; es kann um die Hälfte danebenliegen.</translation>
  </message>
  <message>
   <source>Source: EN 12464-1:2021 as quoted in lighting makers' tables; the window value and the third on the wall are common practice, no source.</source>
   <translation>Quelle: EN 12464-1:2021 nach Tabellen von Leuchtenherstellern; der Wert am Fenster und das Drittel an der Wand sind übliche Praxis, ohne Quelle.</translation>
  </message>
  <message>
   <source>The kind of lamp. A lux meter weighs light as the eye does; a cell weighs it otherwise, so the same lux from another lamp gives another current.</source>
   <translation>Die Art der Lampe. Ein Luxmeter bewertet Licht wie das Auge, eine Solarzelle anders; dieselbe Beleuchtungsstärke einer anderen Lampe ergibt deshalb einen anderen Strom.</translation>
  </message>
  <message>
   <source>Offices: LED 4000 K. Homes: LED 2700 or 3000 K. By a window: daylight behind glass.</source>
   <translation>Büros: LED 4000 K. Wohnungen: LED 2700 oder 3000 K. Am Fenster: Tageslicht hinter Glas.</translation>
  </message>
  <message>
   <source>On the lamp or its box, as the colour temperature in kelvin.</source>
   <translation>Auf der Lampe oder ihrer Verpackung, als Farbtemperatur in Kelvin.</translation>
  </message>
  <message>
   <source>Source: CIE 015:2018 illuminants, ASTM G173-03; which lamp is used where is common practice, no source.</source>
   <translation>Quelle: Lichtarten nach CIE 015:2018, ASTM G173-03; welche Lampe wo verwendet wird, ist übliche Praxis, ohne Quelle.</translation>
  </message>
  <message>
   <source>Share of the lux that is daylight through the window rather than lamp light.</source>
   <translation>Anteil der Beleuchtungsstärke, der als Tageslicht durchs Fenster und nicht von Lampen kommt.</translation>
  </message>
  <message>
   <source>0 in a corridor, 0.3 to 0.5 at a desk near a window, 1 by a window with the lamps off.</source>
   <translation>0 im Flur, 0,3 bis 0,5 am Schreibtisch in Fensternähe, 1 am Fenster bei ausgeschalteten Lampen.</translation>
  </message>
  <message>
   <source>Measure with the lamps off and on; daylight alone over both is the share.</source>
   <translation>Mit aus- und mit eingeschalteten Lampen messen; Tageslicht allein durch beides zusammen ist der Anteil.</translation>
  </message>
  <message>
   <source>Common practice, no source.</source>
   <translation>Übliche Praxis, ohne Quelle.</translation>
  </message>
  <message>
   <source>Light on the panel's face over the light that the meter read. Leave it at 1 when the meter faced as the panel does.</source>
   <translation>Licht auf der Fläche des Moduls im Verhältnis zu dem, was das Messgerät angezeigt hat. Bei 1 lassen, wenn das Messgerät so ausgerichtet war wie das Modul.</translation>
  </message>
  <message>
   <source>0.3 for a panel on the wall when the desk was measured; 0.1 to 0.2 facing down.</source>
   <translation>0,3 für ein Modul an der Wand, wenn am Schreibtisch gemessen wurde; 0,1 bis 0,2 nach unten gerichtet.</translation>
  </message>
  <message>
   <source>Two readings: one as the panel faces, one as the level was measured.</source>
   <translation>Zwei Messungen: eine in der Richtung des Moduls, eine wie bei der Messung der Beleuchtungsstärke.</translation>
  </message>
  <message>
   <source>Share of the light that passes a window, lens or housing in front of the panel.</source>
   <translation>Anteil des Lichts, den Fenster, Linse oder Gehäuse vor dem Modul durchlassen.</translation>
  </message>
  <message>
   <source>Clear acrylic or glass 0.9, frosted cover 0.7 to 0.8, tinted 0.5.</source>
   <translation>Klares Acryl oder Glas 0,9, mattierte Abdeckung 0,7 bis 0,8, getönte 0,5.</translation>
  </message>
  <message>
   <source>Meter reading behind the cover over the reading without it.</source>
   <translation>Messwert hinter der Abdeckung durch Messwert ohne sie.</translation>
  </message>
  <message>
   <source>Share of the light left by dust and grease on the panel.</source>
   <translation>Anteil des Lichts, den Staub und Fett auf dem Modul übrig lassen.</translation>
  </message>
  <message>
   <source>0.95 in an office, 0.7 to 0.9 in a workshop between cleanings.</source>
   <translation>0,95 im Büro, 0,7 bis 0,9 in der Werkstatt zwischen zwei Reinigungen.</translation>
  </message>
  <message>
   <source>Current of the dusty panel over that of the cleaned one.</source>
   <translation>Strom des verstaubten Moduls durch den des gereinigten.</translation>
  </message>
  <message>
   <source>How the illuminance was found. The less sure it is, the more margin is asked for: 1.3 with a lux meter at the panel, 1.6 with a phone app or lamp data, 2.0 for a guess.</source>
   <translation>Wie die Beleuchtungsstärke ermittelt wurde. Je unsicherer, desto höher der verlangte Faktor: 1,3 mit einem Luxmeter am Modul, 1,6 mit einer Handy-App oder Lampendaten, 2,0 für eine Schätzung.</translation>
  </message>
  <message>
   <source>A lux meter at the panel.</source>
   <translation>Ein Luxmeter am Modul.</translation>
  </message>
  <message>
   <source>You know it.</source>
   <translation>Ist bekannt.</translation>
  </message>
  <message>
   <source>Own judgement; that phones and many lux meters err by more than 10 % was measured: Energies 15(16) 5847.</source>
   <translation>Eigene Einschätzung; dass Handys und viele Luxmeter um mehr als 10 % irren, wurde gemessen: Energies 15(16) 5847.</translation>
  </message>
  <message>
   <source>Air temperature at panel and store. It moves the panel's voltage, the store's resistance and life, and decides whether a lithium cell may be charged.</source>
   <translation>Lufttemperatur an Modul und Speicher. Sie verändert die Spannung des Moduls sowie Widerstand und Lebensdauer des Speichers und entscheidet, ob eine Lithiumzelle geladen werden darf.</translation>
  </message>
  <message>
   <source>18 to 25 °C indoors, 5 to 40 °C in a glasshouse, 40 °C and more behind a sunlit pane.</source>
   <translation>18 bis 25 °C in Innenräumen, 5 bis 40 °C im Gewächshaus, 40 °C und mehr hinter einer besonnten Scheibe.</translation>
  </message>
  <message>
   <source>A thermometer beside the device; take the hardest season.</source>
   <translation>Ein Thermometer neben dem Gerät; maßgebend ist die ungünstigste Jahreszeit.</translation>
  </message>
  <message>
   <source>When there is light: at every hour the same, a weekly timetable that repeats, a measured light log, or a year of daylight.</source>
   <translation>Wann es hell ist: zu jeder Stunde gleich, ein Wochenplan, der sich wiederholt, ein gemessenes Lichtprotokoll oder ein Jahr Tageslicht.</translation>
  </message>
  <message>
   <source>A weekly timetable for most rooms.</source>
   <translation>Ein Wochenplan für die meisten Räume.</translation>
  </message>
  <message>
   <source>Ask who switches the lights; or log the light for a week.</source>
   <translation>Fragen, wer das Licht schaltet; oder das Licht eine Woche lang aufzeichnen.</translation>
  </message>
  <message>
   <source>Saturday and Sunday in an office.</source>
   <translation>Samstag und Sonntag im Büro.</translation>
  </message>
  <message>
   <source>Ask when the building is shut.</source>
   <translation>Fragen, wann das Gebäude geschlossen ist.</translation>
  </message>
  <message>
   <source>A table of measured light with a time and a light, played again and again.</source>
   <translation>Eine Tabelle gemessenen Lichts mit Zeit und Licht, die immer wieder abläuft.</translation>
  </message>
  <message>
   <source>One reading a minute for a week or more.</source>
   <translation>Ein Messwert je Minute, eine Woche oder länger.</translation>
  </message>
  <message>
   <source>From a light logger; a name in the program's logs or a path beside the scenario.</source>
   <translation>Aus einem Lichtlogger; ein Name aus den Protokollen des Programms oder ein Pfad neben dem Szenario.</translation>
  </message>
  <message>
   <source>What stands in for hours without a reading.</source>
   <translation>Was für Stunden ohne Messwert eingesetzt wird.</translation>
  </message>
  <message>
   <source>Count as dark: the cautious choice.</source>
   <translation>Als dunkel zählen: die vorsichtige Wahl.</translation>
  </message>
  <message>
   <source>Own judgement.</source>
   <translation>Eigene Einschätzung.</translation>
  </message>
  <message>
   <source>A gap of up to so many steps of the log holds the reading before it, whatever long gaps do.</source>
   <translation>Eine Lücke bis zu so vielen Schritten des Protokolls behält den Messwert davor, was auch für lange Lücken gilt.</translation>
  </message>
  <message>
   <source>5: loggers miss single readings, and these are no night.</source>
   <translation>5: Datenlogger lassen einzelne Messwerte aus, und das ist keine Nacht.</translation>
  </message>
  <message>
   <source>The sentences about the log tell how many gaps were held; 0 holds none.</source>
   <translation>Die Sätze über das Protokoll sagen, wie viele Lücken überbrückt wurden; 0 überbrückt keine.</translation>
  </message>
  <message>
   <source>What the meter reads in full darkness, taken off every reading.</source>
   <translation>Anzeige des Messgeräts in völliger Dunkelheit, von jedem Messwert abgezogen.</translation>
  </message>
  <message>
   <source>0; cheap loggers read some lux in the dark.</source>
   <translation>0; einfache Datenlogger zeigen im Dunkeln einige Lux.</translation>
  </message>
  <message>
   <source>Cover the meter, or read the log at night; where it never goes dark the program offers the value.</source>
   <translation>Das Messgerät abdecken oder das Protokoll bei Nacht ansehen; wo es nie dunkel wird, bietet das Programm den Wert an.</translation>
  </message>
  <message>
   <source>Whether 03/04/05 is 3 April, 4 March or a day of 2003. It counts only where the dates of the file leave it open.</source>
   <translation>Ob 03/04/05 der 3. April, der 4. März oder ein Tag des Jahres 2003 ist. Es gilt nur, wo die Datei es offenlässt.</translation>
  </message>
  <message>
   <source>As the file says.</source>
   <translation>Wie die Datei sagt.</translation>
  </message>
  <message>
   <source>From the logger's settings.</source>
   <translation>Aus den Einstellungen des Datenloggers.</translation>
  </message>
  <message>
   <source>Whether 1,234 is a little more than one or a thousand. It counts only where no number of the file tells.</source>
   <translation>Ob 1,234 etwas mehr als eins oder mehr als tausend ist. Es gilt nur, wo keine Zahl der Datei es sagt.</translation>
  </message>
  <message>
   <source>From the program that wrote the file.</source>
   <translation>Aus dem Programm, das die Datei geschrieben hat.</translation>
  </message>
  <message>
   <source>Whether 12:30 is half past twelve, or twelve minutes and a half. It counts only where the file does not tell.</source>
   <translation>Ob 12:30 halb eins ist oder zwölfeinhalb Minuten. Es gilt nur, wo die Datei es nicht sagt.</translation>
  </message>
  <message>
   <source>Heading of the column of light to take where a file has several.</source>
   <translation>Überschrift der Lichtspalte, die gilt, wo eine Datei mehrere hat.</translation>
  </message>
  <message>
   <source>Empty.</source>
   <translation>Leer.</translation>
  </message>
  <message>
   <source>From the first line of the file.</source>
   <translation>Aus der ersten Zeile der Datei.</translation>
  </message>
  <message>
   <source>What the place is called in the tables of window, stand and sheet.</source>
   <translation>Wie der Ort in den Tabellen von Fenster, Stand und Bericht heißt.</translation>
  </message>
  <message>
   <source>Near the window.</source>
   <translation>Am Fenster.</translation>
  </message>
  <message>
   <source>How brightly that place is lit, taken as steady: how long the store takes to fill there and how many operations an hour its light pays for are told beside the answers about the scenario's own place.</source>
   <translation>Wie hell es dort ist, als gleichmäßig genommen: Wie lange der Speicher dort zum Füllen braucht und wie viele Vorgänge je Stunde das Licht dort bezahlt, steht neben den Antworten zum eigenen Ort des Szenarios.</translation>
  </message>
  <message>
   <source>Near a window 1300 lx; a stair 150 lx.</source>
   <translation>Am Fenster 1300 lx; eine Treppe 150 lx.</translation>
  </message>
  <message>
   <source>On a lux meter.</source>
   <translation>Auf einem Luxmeter.</translation>
  </message>
  <message>
   <source>Common practice, no source; the stair is a lighting design value.</source>
   <translation>Übliche Praxis, ohne Quelle; die Treppe ist ein Planungswert der Beleuchtung.</translation>
  </message>
  <message>
   <source>What lights that place. The panel is taken there as it is: orientation, cover and dust count as at its own place.</source>
   <translation>Was diesen Ort beleuchtet. Das Modul gilt dort, wie es ist: Ausrichtung, Abdeckung und Staub zählen wie am eigenen Ort.</translation>
  </message>
  <message>
   <source>Daylight behind glass near a window.</source>
   <translation>Tageslicht hinter Glas am Fenster.</translation>
  </message>
  <message>
   <source>By looking.</source>
   <translation>Durch Hinsehen.</translation>
  </message>
  <message>
   <source>Weekdays on which this block of hours is lit.</source>
   <translation>Wochentage, an denen in diesem Block Licht ist.</translation>
  </message>
  <message>
   <source>Monday to Friday in an office, all days at a window.</source>
   <translation>Montag bis Freitag im Büro, alle Tage am Fenster.</translation>
  </message>
  <message>
   <source>Ask who switches the lights.</source>
   <translation>Fragen, wer das Licht schaltet.</translation>
  </message>
  <message>
   <source>7 to 9 h.</source>
   <translation>7 bis 9 h.</translation>
  </message>
  <message>
   <source>Ask, or look at a log. With motion sensors count only the time that the lamps really burn.</source>
   <translation>Fragen oder in einem Lichtprotokoll nachsehen. Bei Bewegungsmeldern nur die Zeit zählen, in der die Lampen wirklich brennen.</translation>
  </message>
  <message>
   <source>Hour of the day when the light goes off. A block that passes midnight is entered as two.</source>
   <translation>Uhrzeit, zu der das Licht ausgeht. Ein Block über Mitternacht hinaus wird als zwei Blöcke eingegeben.</translation>
  </message>
  <message>
   <source>17 to 19 h in an office.</source>
   <translation>17 bis 19 h im Büro.</translation>
  </message>
  <message>
   <source>Ask, or look at a log.</source>
   <translation>Fragen oder in einem Lichtprotokoll nachsehen.</translation>
  </message>
  <message>
   <source>Illuminance of this period as a multiple of the one above, for hours that are brighter or dimmer.</source>
   <translation>Beleuchtungsstärke dieser Lichtzeit als Vielfaches der oben genannten, für hellere oder dunklere Stunden.</translation>
  </message>
  <message>
   <source>0.1 to 0.3 for lamps dimmed at night, 0.5 for a winter morning by the window.</source>
   <translation>0,1 bis 0,3 für nachts gedimmte Lampen, 0,5 für einen Wintermorgen am Fenster.</translation>
  </message>
  <message>
   <source>Reading in this block over the reading of the main block.</source>
   <translation>Messwert in diesem Block durch Messwert im Hauptblock.</translation>
  </message>
  <message>
   <source>Share of daylight in this block alone. Empty: as for the whole place.</source>
   <translation>Tageslichtanteil in diesem Block allein. Leer: wie für den ganzen Ort.</translation>
  </message>
  <message>
   <source>1 before the lamps go on.</source>
   <translation>1, bevor die Lampen angehen.</translation>
  </message>
  <message>
   <source>Measure with the lamps off and on.</source>
   <translation>Mit aus- und mit eingeschalteten Lampen messen.</translation>
  </message>
  <message>
   <source>Calendar year whose weekdays and dates count. The year is repeated as it is.</source>
   <translation>Kalenderjahr, dessen Wochentage und Daten gelten. Das Jahr wird wiederholt, wie es ist.</translation>
  </message>
  <message>
   <source>The year in which the device is hung up.</source>
   <translation>Das Jahr, in dem das Gerät aufgehängt wird.</translation>
  </message>
  <message>
   <source>From a calendar.</source>
   <translation>Aus einem Kalender.</translation>
  </message>
  <message>
   <source>Degrees north of the equator, south negative. It sets how high the sun climbs and how long the days are.</source>
   <translation>Grad nördlich des Äquators, Süden negativ. Bestimmt, wie hoch die Sonne steigt und wie lang die Tage sind.</translation>
  </message>
  <message>
   <source>35 to 60 in most places with a winter.</source>
   <translation>35 bis 60 an den meisten Orten mit Winter.</translation>
  </message>
  <message>
   <source>From a map; half a degree is near enough.</source>
   <translation>Aus einer Karte; ein halbes Grad genügt.</translation>
  </message>
  <message>
   <source>Degrees east of Greenwich, west negative. With the time zone it sets when by the clock the sun stands highest.</source>
   <translation>Grad östlich von Greenwich, Westen negativ. Mit der Zeitzone bestimmt sie, wann nach der Uhr die Sonne am höchsten steht.</translation>
  </message>
  <message>
   <source>-10 to 30 in Europe.</source>
   <translation>-10 bis 30 in Europa.</translation>
  </message>
  <message>
   <source>From a map; the note says at what time the sun stands highest, which anybody there can check.</source>
   <translation>Aus einer Karte; der Hinweis sagt, wann die Sonne am höchsten steht, was dort jeder prüfen kann.</translation>
  </message>
  <message>
   <source>Zone of the clock on the wall, by its IANA name. Lamps and holidays go by it, summer time included; the device's own clock keeps the time of 1 January.</source>
   <translation>Zone der Uhr an der Wand, nach ihrem IANA-Namen. Lampen und freie Tage richten sich danach, Sommerzeit eingeschlossen; die Uhr des Geräts behält die Zeit des 1. Januar.</translation>
  </message>
  <message>
   <source>Europe/Berlin, Europe/London, America/New_York; Etc/UTC never changes.</source>
   <translation>Europe/Berlin, Europe/London, America/New_York; Etc/UTC wird nie umgestellt.</translation>
  </message>
  <message>
   <source>Any computer that is set up at the place names it.</source>
   <translation>Jeder Rechner, der am Ort eingerichtet ist, nennt sie.</translation>
  </message>
  <message>
   <source>Source: IANA time zone data base.</source>
   <translation>Quelle: IANA-Zeitzonendatenbank.</translation>
  </message>
  <message>
   <source>A year of hours from a weather station or a typical year, as EPW or TMY3. Its light, its temperatures and its place count. Columns of lux are held, day by day, against the sun's power in the same file; where they contradict it or are empty, light is taken from that power (115 lm/W for the sky, 88 lm/W for the sun).</source>
   <translation>Ein Jahr von Stunden einer Wetterstation oder ein typisches Jahr, als EPW oder TMY3. Licht, Temperaturen und Ort daraus gelten. Spalten in Lux werden Tag für Tag gegen die Sonnenleistung derselben Datei gehalten; wo sie ihr widersprechen oder leer sind, kommt das Licht aus dieser Leistung (115 lm/W für den Himmel, 88 lm/W für die Sonne).</translation>
  </message>
  <message>
   <source>Empty, or the nearest station whose climate is alike.</source>
   <translation>Leer, oder die nächste Station mit ähnlichem Klima.</translation>
  </message>
  <message>
   <source>From public weather archives; it lies beside the scenario like a log.</source>
   <translation>Aus öffentlichen Wetterarchiven; sie liegt neben dem Szenario wie ein Protokoll.</translation>
  </message>
  <message>
   <source>Source: documentation of the EPW format; TMY3, NREL/TP-581-43156; efficacies fitted to a TMY3 year of the NREL.</source>
   <translation>Quelle: Dokumentation des EPW-Formats; TMY3, NREL/TP-581-43156; Lichtausbeuten an ein TMY3-Jahr des NREL angepasst.</translation>
  </message>
  <message>
   <source>Day on which the device is hung up, at noon, with the store as it comes. Whether it starts is judged from then.</source>
   <translation>Tag, an dem das Gerät mittags aufgehängt wird, der Speicher wie geliefert. Ob es anläuft, wird von da an beurteilt.</translation>
  </message>
  <message>
   <source>01-01: the hardest start in the north.</source>
   <translation>01-01: der schwerste Anlauf im Norden.</translation>
  </message>
  <message>
   <source>Share of the month's days with a clear sky.</source>
   <translation>Anteil der Tage des Monats mit klarem Himmel.</translation>
  </message>
  <message>
   <source>0.1 to 0.3 in temperate winters, 0.5 and more in dry summers.</source>
   <translation>0,1 bis 0,3 in gemäßigten Wintern, 0,5 und mehr in trockenen Sommern.</translation>
  </message>
  <message>
   <source>From climate tables: days with up to 2 tenths of cloud.</source>
   <translation>Aus Klimatabellen: Tage mit bis zu 2 Zehnteln Wolken.</translation>
  </message>
  <message>
   <source>Own judgement; clear and overcast as in the observations of weather stations.</source>
   <translation>Eigene Einschätzung; klar und bedeckt wie in den Beobachtungen von Wetterstationen.</translation>
  </message>
  <message>
   <source>Share of the days with sun and clouds. What is left is overcast; those days come first in the month, in one row, which is the hardest order.</source>
   <translation>Anteil der Tage mit Sonne und Wolken. Der Rest ist bedeckt; diese Tage kommen zuerst im Monat, am Stück, das ist die härteste Reihenfolge.</translation>
  </message>
  <message>
   <source>0.2 to 0.5.</source>
   <translation>0,2 bis 0,5.</translation>
  </message>
  <message>
   <source>From climate tables: days with 3 to 8 tenths of cloud.</source>
   <translation>Aus Klimatabellen: Tage mit 3 bis 8 Zehnteln Wolken.</translation>
  </message>
  <message>
   <source>Own judgement of the order. Months of three measured years had 0.95 to 1.45 times the light of their shares, and 2.0 to 4.2 times that of overcast skies throughout.</source>
   <translation>Die Reihenfolge ist eigene Einschätzung. Monate dreier gemessener Jahre hatten das 0,95- bis 1,45-Fache des Lichts ihrer Anteile und das 2,0- bis 4,2-Fache durchweg bedeckten Himmels.</translation>
  </message>
  <message>
   <source>Mean temperature at panel and store in this month. It moves the panel's voltage, the store's resistance and life, and decides whether a lithium cell may be charged.</source>
   <translation>Mittlere Temperatur an Modul und Speicher in diesem Monat. Sie verändert die Spannung des Moduls sowie Widerstand und Lebensdauer des Speichers und entscheidet, ob eine Lithiumzelle geladen werden darf.</translation>
  </message>
  <message>
   <source>-5 to 25 °C out of doors; behind a sunlit pane it is warmer.</source>
   <translation>-5 bis 25 °C im Freien; hinter einer besonnten Scheibe ist es wärmer.</translation>
  </message>
  <message>
   <source>From climate tables, or a thermometer at the place.</source>
   <translation>Aus Klimatabellen oder von einem Thermometer am Ort.</translation>
  </message>
  <message>
   <source>By how much the warmest and the coldest hours of light lie above and below the month's mean. Energy goes by the mean; whether a cell may be charged, and whether a store gets too hot, is judged by these hours, too. A weather file tells them itself.</source>
   <translation>Um wie viel die wärmsten und die kältesten Stunden mit Licht über und unter dem Monatsmittel liegen. Die Energie richtet sich nach dem Mittel; ob eine Zelle geladen werden darf und ob ein Speicher zu heiß wird, wird auch nach diesen Stunden beurteilt. Eine Wetterdatei sagt sie selbst.</translation>
  </message>
  <message>
   <source>5 to 10 °C out of doors, 2 to 5 °C in a heated room, 20 °C and more behind a sunlit pane.</source>
   <translation>5 bis 10 °C im Freien, 2 bis 5 °C im geheizten Raum, 20 °C und mehr hinter einer besonnten Scheibe.</translation>
  </message>
  <message>
   <source>From climate tables: half of what lies between the month's highest and lowest temperature by day; or a thermometer that keeps both.</source>
   <translation>Aus Klimatabellen: die Hälfte dessen, was zwischen höchster und niedrigster Tagestemperatur des Monats liegt; oder von einem Thermometer, das beide festhält.</translation>
  </message>
  <message>
   <source>Whether the panel looks at the sky itself or sits in a room.</source>
   <translation>Ob das Modul selbst den Himmel sieht oder in einem Raum sitzt.</translation>
  </message>
  <message>
   <source>Out of doors; also for a panel on the inside of a pane.</source>
   <translation>Im Freien; auch für ein Modul innen an einer Scheibe.</translation>
  </message>
  <message>
   <source>Angle between the panel and level ground. An upright panel gets 0.4 of the light of an overcast sky, a level one all of it.</source>
   <translation>Winkel zwischen Modul und ebenem Boden. Ein aufrechtes Modul bekommt das 0,4-Fache des Lichts eines bedeckten Himmels, ein flaches alles.</translation>
  </message>
  <message>
   <source>90 on walls and doors, 30 to 60 facing the noon sun.</source>
   <translation>90 an Wänden und Türen, 30 bis 60 zur Mittagssonne.</translation>
  </message>
  <message>
   <source>A protractor, or the drawing.</source>
   <translation>Winkelmesser oder Zeichnung.</translation>
  </message>
  <message>
   <source>Source: CIE overcast sky, 0.396 upright.</source>
   <translation>Quelle: bedeckter Himmel nach CIE, aufrecht 0,396.</translation>
  </message>
  <message>
   <source>Direction that the panel faces, from north over east.</source>
   <translation>Richtung, in die das Modul blickt, von Norden über Osten.</translation>
  </message>
  <message>
   <source>0 north, 90 east, 180 south, 270 west.</source>
   <translation>0 Norden, 90 Osten, 180 Süden, 270 Westen.</translation>
  </message>
  <message>
   <source>A map or a compass beside no steel.</source>
   <translation>Eine Karte oder ein Kompass, nicht neben Stahl.</translation>
  </message>
  <message>
   <source>Angle above level up to which houses, hills or trees hide the sky all around. What they throw back is left out.</source>
   <translation>Winkel über der Waagrechten, bis zu dem Häuser, Hügel oder Bäume ringsum den Himmel verdecken. Was sie zurückwerfen, bleibt außer Acht.</translation>
  </message>
  <message>
   <source>10 in a suburb, 30 and more in a street.</source>
   <translation>10 in einer Vorstadt, 30 und mehr in einer Straße.</translation>
  </message>
  <message>
   <source>Height of what stands there over its distance is the tangent of the angle.</source>
   <translation>Höhe des Gegenübers geteilt durch Entfernung ist der Tangens des Winkels.</translation>
  </message>
  <message>
   <source>Angle above level, straight ahead of the panel, from which on a roof, balcony or lintel hides the sky. It counts as long as the wall.</source>
   <translation>Winkel über der Waagrechten, geradeaus vor dem Modul, ab dem ein Dach, Balkon oder Sturz den Himmel verdeckt. Er gilt als so lang wie die Wand.</translation>
  </message>
  <message>
   <source>Empty; 45 under a porch.</source>
   <translation>Leer; 45 unter einem Vordach.</translation>
  </message>
  <message>
   <source>Look along the edge of the overhang from the panel: the angle of that line above level.</source>
   <translation>Vom Modul aus die Kante des Überstands anpeilen: der Winkel dieser Linie über der Waagrechten.</translation>
  </message>
  <message>
   <source>Share of the light on the ground that it throws back to a tilted panel.</source>
   <translation>Anteil des Lichts, den der Boden auf ein geneigtes Modul zurückwirft.</translation>
  </message>
  <message>
   <source>0.2 for open ground, 0.7 for snow, less in the shade of the wall.</source>
   <translation>0,2 für offenen Boden, 0,7 für Schnee, weniger im Schatten der Wand.</translation>
  </message>
  <message>
   <source>From tables of albedo.</source>
   <translation>Aus Albedo-Tabellen.</translation>
  </message>
  <message>
   <source>1; 0.5 under shading cloth of that grade.</source>
   <translation>1; 0,5 unter Schattengewebe dieser Stärke.</translation>
  </message>
  <message>
   <source>A lux meter beside and below it.</source>
   <translation>Ein Luxmeter daneben und darunter.</translation>
  </message>
  <message>
   <source>Coated window glass takes away most of the near infrared, on which crystalline cells live; the lux hardly show it. Set how much light the pane takes with the cover transmittance.</source>
   <translation>Beschichtetes Fensterglas nimmt das meiste nahe Infrarot weg, von dem kristalline Zellen leben; den Lux sieht man es kaum an. Wie viel Licht die Scheibe nimmt, sagt der Transmissionsgrad der Abdeckung.</translation>
  </message>
  <message>
   <source>Coated in windows since the 1990s; plain in most glasshouses.</source>
   <translation>Beschichtet in Fenstern seit den 1990er-Jahren; einfach in den meisten Gewächshäusern.</translation>
  </message>
  <message>
   <source>From the window's data sheet, or its age.</source>
   <translation>Aus dem Datenblatt des Fensters oder nach seinem Alter.</translation>
  </message>
  <message>
   <source>Source: panels measured in rooms; crystalline ones get 1.3 to 1.5 times the current per lux of lamps, not 2.6 to 2.9 as under the open sky.</source>
   <translation>Quelle: in Räumen gemessene Module; kristalline bekommen je Lux das 1,3- bis 1,5-Fache des Stroms von Lampen, nicht das 2,6- bis 2,9-Fache wie unter freiem Himmel.</translation>
  </message>
  <message>
   <source>Light at the place over light out of doors on open level ground at the same time, under an overcast sky.</source>
   <translation>Licht am Ort geteilt durch Licht im Freien auf offenem, ebenem Boden zur selben Zeit, bei bedecktem Himmel.</translation>
  </message>
  <message>
   <source>0.05 beside a window, 0.02 at a desk near it, 0.005 deep in the room.</source>
   <translation>0,05 am Fenster, 0,02 am Schreibtisch in der Nähe, 0,005 tief im Raum.</translation>
  </message>
  <message>
   <source>Two readings at the same time, one outside; or one reading at the place, which sets the year.</source>
   <translation>Zwei Ablesungen zur selben Zeit, eine draußen; oder eine Ablesung am Ort, die das Jahr festlegt.</translation>
  </message>
  <message>
   <source>Whether sunshine counts. Sunbeams pass, and often beside the panel.</source>
   <translation>Ob Sonnenschein zählt. Sonnenstrahlen wandern, oft am Modul vorbei.</translation>
  </message>
  <message>
   <source>The sky alone.</source>
   <translation>Nur der Himmel.</translation>
  </message>
  <message>
   <source>Watch the place for a sunny day in winter and in summer.</source>
   <translation>Den Ort an einem Sonnentag im Winter und im Sommer beobachten.</translation>
  </message>
  <message>
   <source>One reading of a lux meter at the panel's place sets the light of the year: it is compared with the light computed for that moment, and the quotient multiplies all daylight. Skies then count as bright as such skies were on average in three measured years.</source>
   <translation>Eine Ablesung eines Luxmeters am Ort des Moduls legt das Licht des Jahres fest: Sie wird mit dem für diesen Augenblick berechneten Licht verglichen, und der Quotient multipliziert alles Tageslicht. Himmel gelten dann als so hell, wie solche Himmel im Mittel dreier gemessener Jahre waren.</translation>
  </message>
  <message>
   <source>Empty, or one reading at noon.</source>
   <translation>Leer, oder eine Ablesung mittags.</translation>
  </message>
  <message>
   <source>A lux meter that faces as the panel faces, lamps off.</source>
   <translation>Ein Luxmeter, ausgerichtet wie das Modul, Lampen aus.</translation>
  </message>
  <message>
   <source>Source: three measured years of the NREL. Such skies differ: 0.9 to 1.1 times for a clear sky, 0.6 to 1.9 times for an overcast one.</source>
   <translation>Quelle: drei gemessene Jahre des NREL. Solche Himmel sind verschieden: das 0,9- bis 1,1-Fache bei klarem, das 0,6- bis 1,9-Fache bei bedecktem Himmel.</translation>
  </message>
  <message>
   <source>Month and day of the reading.</source>
   <translation>Monat und Tag der Ablesung.</translation>
  </message>
  <message>
   <source>A day near the equinox says most about the year.</source>
   <translation>Ein Tag nahe der Tagundnachtgleiche sagt am meisten über das Jahr.</translation>
  </message>
  <message>
   <source>From the note of the reading.</source>
   <translation>Aus der Notiz zur Ablesung.</translation>
  </message>
  <message>
   <source>Hour and minute of the reading by the clock on the wall.</source>
   <translation>Stunde und Minute der Ablesung nach der Uhr an der Wand.</translation>
  </message>
  <message>
   <source>Around noon.</source>
   <translation>Um die Mittagszeit.</translation>
  </message>
  <message>
   <source>What the sky was like at the reading.</source>
   <translation>Wie der Himmel bei der Ablesung war.</translation>
  </message>
  <message>
   <source>Overcast, evenly grey; or clear, with the sun out.</source>
   <translation>Bedeckt, gleichmäßig grau; oder klar, mit Sonne.</translation>
  </message>
  <message>
   <source>Look up.</source>
   <translation>Nach oben sehen.</translation>
  </message>
  <message>
   <source>Monday to Friday.</source>
   <translation>Montag bis Freitag.</translation>
  </message>
  <message>
   <source>Hour of the day when the lamps come on, by the clock on the wall.</source>
   <translation>Stunde, zu der die Lampen angehen, nach der Uhr an der Wand.</translation>
  </message>
  <message>
   <source>7 to 9.</source>
   <translation>7 bis 9.</translation>
  </message>
  <message>
   <source>16 to 20.</source>
   <translation>16 bis 20.</translation>
  </message>
  <message>
   <source>What the lamps alone give at the panel's place. Their spectrum is the light source of the scenario.</source>
   <translation>Was die Lampen allein am Ort des Moduls geben. Ihr Spektrum ist die Lichtquelle des Szenarios.</translation>
  </message>
  <message>
   <source>100 to 500 lx.</source>
   <translation>100 bis 500 lx.</translation>
  </message>
  <message>
   <source>A lux meter after dark.</source>
   <translation>Ein Luxmeter nach Einbruch der Dunkelheit.</translation>
  </message>
  <message>
   <source>First day of the holidays.</source>
   <translation>Erster freier Tag.</translation>
  </message>
  <message>
   <source>From the calendar of school or firm.</source>
   <translation>Aus dem Kalender von Schule oder Betrieb.</translation>
  </message>
  <message>
   <source>Last day of the holidays, which counts; a range may pass New Year.</source>
   <translation>Letzter freier Tag, der mitzählt; über Neujahr hinweg ist erlaubt.</translation>
  </message>
  <message>
   <source>Lamps stay off on holidays. Behind closed blinds or shutters there is no daylight, either.</source>
   <translation>An freien Tagen bleiben die Lampen aus. Hinter geschlossenen Jalousien oder Läden gibt es auch kein Tageslicht.</translation>
  </message>
  <message>
   <source>Blinds open.</source>
   <translation>Jalousien offen.</translation>
  </message>
  <message>
   <source>Ask who closes them.</source>
   <translation>Fragen, wer sie schließt.</translation>
  </message>
  <message>
   <source>How many panels work side by side. Their currents add.</source>
   <translation>Wie viele Module parallel arbeiten. Ihre Ströme addieren sich.</translation>
  </message>
  <message>
   <source>1 to 4.</source>
   <translation>1 bis 4.</translation>
  </message>
  <message>
   <source>How many panels form one string. Their voltages add; the dimmest one limits the string.</source>
   <translation>Wie viele Module einen Strang bilden. Ihre Spannungen addieren sich; das dunkelste begrenzt den Strang.</translation>
  </message>
  <message>
   <source>1 with a converter; 2 where a diode must reach a higher store voltage.</source>
   <translation>1 mit einem Wandler; 2, wo über eine Diode eine höhere Speicherspannung erreicht werden muss.</translation>
  </message>
  <message>
   <source>What the cells are made of. It decides how much of each lamp's light they use and how well they work in dim light.</source>
   <translation>Woraus die Solarzellen bestehen. Es entscheidet, wie viel vom Licht der jeweiligen Lampe sie nutzen und wie gut sie bei schwachem Licht arbeiten.</translation>
  </message>
  <message>
   <source>Amorphous silicon for lamps; crystalline where there is daylight.</source>
   <translation>Amorphes Silizium für Lampen; kristallines, wo es Tageslicht gibt.</translation>
  </message>
  <message>
   <source>First lines of the data sheet.</source>
   <translation>Erste Zeilen des Datenblatts.</translation>
  </message>
  <message>
   <source>Source: the response of crystalline cells is pvlib's (doi 10.2172/1814068); all other responses are modelled or from memory. Output without a data sheet is that of the usual module on sale, from memory of catalogues.</source>
   <translation>Quelle: die Empfindlichkeit kristalliner Zellen aus pvlib (doi 10.2172/1814068); alle anderen sind modelliert oder aus dem Gedächtnis. Der Ertrag ohne Datenblatt ist der des üblichen käuflichen Moduls, aus dem Gedächtnis nach Katalogen.</translation>
  </message>
  <message>
   <source>Area that takes light, of one whole panel, without frame and contacts.</source>
   <translation>Lichtempfindliche Fläche eines ganzen Moduls, ohne Rahmen und Kontakte.</translation>
  </message>
  <message>
   <source>2 to 60 cm². Amorphous modules on sale give 3 to 6 µW/cm² at 200 lx, the usual one 4.8.</source>
   <translation>2 bis 60 cm². Käufliche amorphe Module geben 3 bis 6 µW/cm² bei 200 lx, das übliche 4,8.</translation>
  </message>
  <message>
   <source>“Active area” or “aperture” on the data sheet, else measure the dark part with a ruler.</source>
   <translation>„Active area“ oder „aperture“ im Datenblatt, sonst den dunklen Teil mit dem Lineal messen.</translation>
  </message>
  <message>
   <source>From memory of catalogues; a laboratory cell gave 25.6 µW/cm² at 500 lx (Sci. Rep. 2017, PMC5629211).</source>
   <translation>Aus dem Gedächtnis nach Katalogen; eine Laborzelle gab 25,6 µW/cm² bei 500 lx (Sci. Rep. 2017, PMC5629211).</translation>
  </message>
  <message>
   <source>How many cells share the panel's area; each adds its voltage.</source>
   <translation>Wie viele Solarzellen sich die Fläche des Moduls teilen; jede trägt ihre Spannung bei.</translation>
  </message>
  <message>
   <source>4 to 8 for amorphous indoor panels, 6 to 10 for small crystalline ones.</source>
   <translation>4 bis 8 bei amorphen Modulen für Innenräume, 6 bis 10 bei kleinen kristallinen.</translation>
  </message>
  <message>
   <source>Count the lines across the panel, or open-circuit voltage over 0.5 to 0.8 V.</source>
   <translation>Die Linien quer über das Modul zählen, oder Leerlaufspannung durch 0,5 bis 0,8 V.</translation>
  </message>
  <message>
   <source>Illuminance at which this point of the data sheet was measured.</source>
   <translation>Beleuchtungsstärke, bei der dieser Punkt des Datenblatts gemessen wurde.</translation>
  </message>
  <message>
   <source>50, 200 or 1000 lx.</source>
   <translation>50, 200 oder 1000 lx.</translation>
  </message>
  <message>
   <source>Head of the indoor table of the data sheet.</source>
   <translation>Kopf der Innenraumtabelle im Datenblatt.</translation>
  </message>
  <message>
   <source>From memory.</source>
   <translation>Aus dem Gedächtnis.</translation>
  </message>
  <message>
   <source>Lamp under which this line was measured.</source>
   <translation>Lampe, unter der diese Zeile gemessen wurde.</translation>
  </message>
  <message>
   <source>Fluorescent on older sheets, LED on newer ones.</source>
   <translation>Leuchtstofflampe in älteren Datenblättern, LED in neueren.</translation>
  </message>
  <message>
   <source>Small print below the indoor table.</source>
   <translation>Kleingedrucktes unter der Innenraumtabelle.</translation>
  </message>
  <message>
   <source>Current into a short circuit at this illuminance.</source>
   <translation>Strom in einen Kurzschluss bei dieser Beleuchtungsstärke.</translation>
  </message>
  <message>
   <source>About 0.05 µA per lux for a small amorphous panel: 10 µA at 200 lx.</source>
   <translation>Etwa 0,05 µA je Lux bei einem kleinen amorphen Modul: 10 µA bei 200 lx.</translation>
  </message>
  <message>
   <source>Isc on the data sheet, or an ammeter across the panel.</source>
   <translation>Isc im Datenblatt, oder ein Amperemeter direkt am Modul.</translation>
  </message>
  <message>
   <source>Source: measured medians of 0.043 to 0.048 µA/lx at eight places, Bader et al., IEEE Sensors 2020.</source>
   <translation>Quelle: gemessene Mediane von 0,043 bis 0,048 µA/lx an acht Orten, Bader et al., IEEE Sensors 2020.</translation>
  </message>
  <message>
   <source>Voltage of the panel with nothing connected. May stay empty; the technology then fills it.</source>
   <translation>Spannung des Moduls, wenn nichts angeschlossen ist. Darf leer bleiben; dann ergänzt sie die Technologie.</translation>
  </message>
  <message>
   <source>0.5 to 0.8 V a cell indoors.</source>
   <translation>0,5 bis 0,8 V je Zelle in Innenräumen.</translation>
  </message>
  <message>
   <source>Voc on the data sheet, or a voltmeter of 10 MΩ or more.</source>
   <translation>Voc im Datenblatt, oder ein Voltmeter mit 10 MΩ oder mehr.</translation>
  </message>
  <message>
   <source>Current where voltage times current is largest. May stay empty, together with its voltage.</source>
   <translation>Strom, bei dem Spannung mal Strom am größten ist. Darf zusammen mit seiner Spannung leer bleiben.</translation>
  </message>
  <message>
   <source>0.75 to 0.9 of the short-circuit current.</source>
   <translation>Das 0,75- bis 0,9-Fache des Kurzschlussstroms.</translation>
  </message>
  <message>
   <source>Imp on the data sheet. An operating point that is not the maximum makes the panel look weaker.</source>
   <translation>Imp im Datenblatt. Ein Arbeitspunkt, der nicht das Maximum ist, lässt das Modul schwächer aussehen.</translation>
  </message>
  <message>
   <source>Voltage where voltage times current is largest. May stay empty, together with its current.</source>
   <translation>Spannung, bei der Spannung mal Strom am größten ist. Darf zusammen mit ihrem Strom leer bleiben.</translation>
  </message>
  <message>
   <source>0.7 to 0.85 of the open-circuit voltage.</source>
   <translation>Das 0,7- bis 0,85-Fache der Leerlaufspannung.</translation>
  </message>
  <message>
   <source>Vmp on the data sheet.</source>
   <translation>Vmp im Datenblatt.</translation>
  </message>
  <message>
   <source>Source: 0.77 to 0.87 computed for single-diode panels with pvlib; panels with a weak shunt fall to 0.5.</source>
   <translation>Quelle: 0,77 bis 0,87 mit pvlib für Module im Eindiodenmodell berechnet; Module mit niedrigem Parallelwiderstand fallen auf 0,5 ab.</translation>
  </message>
  <message>
   <source>What stands between panel and store: a blocking diode, or a switching converter that holds the panel at its best voltage.</source>
   <translation>Was zwischen Modul und Speicher liegt: eine Sperrdiode oder ein Schaltwandler, der das Modul auf seiner günstigsten Spannung hält.</translation>
  </message>
  <message>
   <source>A diode for the smallest devices, a converter where the store's voltage and the panel's differ.</source>
   <translation>Eine Diode für die kleinsten Geräte, ein Wandler, wo sich Speicher- und Modulspannung unterscheiden.</translation>
  </message>
  <message>
   <source>Your circuit.</source>
   <translation>Eigene Schaltung.</translation>
  </message>
  <message>
   <source>How the converter finds the panel's working voltage: a set fraction of the open-circuit voltage, or the true maximum of power.</source>
   <translation>Wie der Wandler die Arbeitsspannung des Moduls findet: fester Bruchteil der Leerlaufspannung oder echtes Leistungsmaximum.</translation>
  </message>
  <message>
   <source>A fraction: it is what most small harvesting converters do.</source>
   <translation>Ein Bruchteil: so arbeiten die meisten kleinen Harvesting-Wandler.</translation>
  </message>
  <message>
   <source>Data sheet of the converter, under MPPT.</source>
   <translation>Datenblatt des Wandlers, unter MPPT.</translation>
  </message>
  <message>
   <source>Panel voltage that the converter holds, over the open-circuit voltage.</source>
   <translation>Modulspannung, die der Wandler hält, durch die Leerlaufspannung.</translation>
  </message>
  <message>
   <source>0.75 to 0.85; data sheets let you set 0.35 to 0.9.</source>
   <translation>0,75 bis 0,85; laut Datenblättern sind 0,35 bis 0,9 einstellbar.</translation>
  </message>
  <message>
   <source>MPPT ratio on the converter's data sheet, or its resistor divider.</source>
   <translation>MPPT-Verhältnis im Datenblatt des Wandlers, oder sein Spannungsteiler.</translation>
  </message>
  <message>
   <source>Source: ranges of harvesting converters' data sheets.</source>
   <translation>Quelle: Bereiche aus Datenblättern von Harvesting-Wandlern.</translation>
  </message>
  <message>
   <source>Share of the panel's power that arrives, before fixed and resistive losses.</source>
   <translation>Anteil der Modulleistung, der ankommt, vor festen und ohmschen Verlusten.</translation>
  </message>
  <message>
   <source>0.7 to 0.9; less at microwatts.</source>
   <translation>0,7 bis 0,9; weniger bei Mikrowatt.</translation>
  </message>
  <message>
   <source>Efficiency curves on the converter's data sheet, at your input power.</source>
   <translation>Wirkungsgradkurven im Datenblatt des Wandlers, bei der eigenen Eingangsleistung.</translation>
  </message>
  <message>
   <source>From memory: small harvesting converters keep 50 to 75 % of 10 µW, 70 to 88 % of 100 µW, 75 to 92 % of 1 mW, fixed loss included. No open curve was found.</source>
   <translation>Aus dem Gedächtnis: Kleinen Harvesting-Wandlern bleiben von 10 µW 50 bis 75 %, von 100 µW 70 bis 88 %, von 1 mW 75 bis 92 %, Festverlust eingerechnet. Eine offene Kurve wurde nicht gefunden.</translation>
  </message>
  <message>
   <source>Factor on every efficiency of the table, for a part that is better or worse than its sheet.</source>
   <translation>Faktor auf jeden Wirkungsgrad der Tabelle, für ein Bauteil, das besser oder schlechter als sein Datenblatt ist.</translation>
  </message>
  <message>
   <source>1; the spread takes 0.96 to 1.04.</source>
   <translation>1; die Streuung nimmt 0,96 bis 1,04.</translation>
  </message>
  <message>
   <source>Input and output power measured at one working point, over the table there.</source>
   <translation>Eingangs- und Ausgangsleistung, an einem Arbeitspunkt gemessen, bezogen auf die Tabelle dort.</translation>
  </message>
  <message>
   <source>Power that is lost whenever the converter runs, however little light there is.</source>
   <translation>Leistung, die verloren geht, sobald der Wandler läuft, so wenig Licht es auch gibt.</translation>
  </message>
  <message>
   <source>0.5 to 3 µW.</source>
   <translation>0,5 bis 3 µW.</translation>
  </message>
  <message>
   <source>Quiescent current in operation times its voltage.</source>
   <translation>Eigenstrom im Betrieb mal zugehörige Spannung.</translation>
  </message>
  <message>
   <source>From memory; it is what takes the efficiency down at microwatts. 2 µW with 0.8 keeps 60 % of 10 µW.</source>
   <translation>Aus dem Gedächtnis; er drückt den Wirkungsgrad bei Mikrowatt. Mit 2 µW und 0,8 bleiben von 10 µW 60 %.</translation>
  </message>
  <message>
   <source>Resistance in the converter's output path; it counts at large currents.</source>
   <translation>Widerstand im Ausgangspfad des Wandlers; er zählt bei großen Strömen.</translation>
  </message>
  <message>
   <source>0.2 to 2 Ω.</source>
   <translation>0,2 bis 2 Ω.</translation>
  </message>
  <message>
   <source>Resistance of switch and coil on their data sheets.</source>
   <translation>Widerstände von Schalter und Spule aus deren Datenblättern.</translation>
  </message>
  <message>
   <source>Largest current that the charger gives.</source>
   <translation>Größter Strom, den der Laderegler liefert.</translation>
  </message>
  <message>
   <source>50 to 200 mA for harvesting converters.</source>
   <translation>50 bis 200 mA bei Harvesting-Wandlern.</translation>
  </message>
  <message>
   <source>Peak or charge current on the data sheet.</source>
   <translation>Spitzen- oder Ladestrom im Datenblatt.</translation>
  </message>
  <message>
   <source>Panel voltage below which a running converter stops.</source>
   <translation>Modulspannung, unter der ein laufender Wandler stehen bleibt.</translation>
  </message>
  <message>
   <source>0.05 to 0.15 V.</source>
   <translation>0,05 bis 0,15 V.</translation>
  </message>
  <message>
   <source>Minimum input voltage after start-up.</source>
   <translation>Kleinste Eingangsspannung nach dem Anlauf.</translation>
  </message>
  <message>
   <source>Source: data sheets of harvesting converters, 50 to 100 mV.</source>
   <translation>Quelle: Datenblätter von Harvesting-Wandlern, 50 bis 100 mV.</translation>
  </message>
  <message>
   <source>Panel power below which a running converter stops.</source>
   <translation>Modulleistung, unter der ein laufender Wandler stehen bleibt.</translation>
  </message>
  <message>
   <source>1 to 5 µW.</source>
   <translation>1 bis 5 µW.</translation>
  </message>
  <message>
   <source>Minimum input power on the data sheet.</source>
   <translation>Kleinste Eingangsleistung im Datenblatt.</translation>
  </message>
  <message>
   <source>Source: data sheets of harvesting converters, 3 to 5 µW; the default is the cautious end.</source>
   <translation>Quelle: Datenblätter von Harvesting-Wandlern, 3 bis 5 µW; die Vorgabe ist das vorsichtige Ende.</translation>
  </message>
  <message>
   <source>Store voltage below which only the weak cold-start circuit charges. A slow first charge often comes from here.</source>
   <translation>Speicherspannung, unter der nur die schwache Kaltstartschaltung lädt. Eine langsame Erstladung kommt oft daher.</translation>
  </message>
  <message>
   <source>1.6 to 1.9 V.</source>
   <translation>1,6 bis 1,9 V.</translation>
  </message>
  <message>
   <source>“Cold start” or “CHGEN threshold” on the data sheet.</source>
   <translation>„Cold start“ oder „CHGEN threshold“ im Datenblatt.</translation>
  </message>
  <message>
   <source>Efficiency of the cold-start circuit.</source>
   <translation>Wirkungsgrad der Kaltstartschaltung.</translation>
  </message>
  <message>
   <source>0.05 to 0.1.</source>
   <translation>0,05 bis 0,1.</translation>
  </message>
  <message>
   <source>Rarely given; by a maker's own sizing formula 5 %.</source>
   <translation>Selten angegeben; nach der Auslegungsformel eines Herstellers 5 %.</translation>
  </message>
  <message>
   <source>Source: a harvesting converter's data sheet, sizing formula.</source>
   <translation>Quelle: Datenblatt eines Harvesting-Wandlers, Auslegungsformel.</translation>
  </message>
  <message>
   <source>Open-circuit voltage of the panel that a cold start needs.</source>
   <translation>Leerlaufspannung des Moduls, die ein Kaltstart braucht.</translation>
  </message>
  <message>
   <source>0.25 to 0.7 V.</source>
   <translation>0,25 bis 0,7 V.</translation>
  </message>
  <message>
   <source>Cold-start voltage on the data sheet; take the largest value, not the typical one.</source>
   <translation>Kaltstartspannung im Datenblatt; den größten Wert nehmen, nicht den typischen.</translation>
  </message>
  <message>
   <source>Source: data sheets of harvesting converters, 0.3 to 0.6 V. The default is the cautious end.</source>
   <translation>Quelle: Datenblätter von Harvesting-Wandlern, 0,3 bis 0,6 V. Die Vorgabe ist das vorsichtige Ende.</translation>
  </message>
  <message>
   <source>3 to 15 µW.</source>
   <translation>3 bis 15 µW.</translation>
  </message>
  <message>
   <source>Cold-start power on the data sheet.</source>
   <translation>Kaltstartleistung im Datenblatt.</translation>
  </message>
  <message>
   <source>Source: data sheets of harvesting converters, 3 to 5 µW; 15 µW, the default, is from memory.</source>
   <translation>Quelle: Datenblätter von Harvesting-Wandlern, 3 bis 5 µW; 15 µW, die Vorgabe, ist aus dem Gedächtnis.</translation>
  </message>
  <message>
   <source>Store voltage at which charging stops. Keep every unit below its rated voltage, with room for tolerance and heat.</source>
   <translation>Speicherspannung, bei der das Laden endet. Jede Einheit unter ihrer Nennspannung halten, mit Abstand für Toleranz und Wärme.</translation>
  </message>
  <message>
   <source>5.0 V for two 2.7 V supercapacitors in series, 4.1 to 4.2 V for one lithium-ion cell.</source>
   <translation>5,0 V für zwei 2,7-V-Superkondensatoren in Reihe, 4,1 bis 4,2 V für eine Lithium-Ionen-Zelle.</translation>
  </message>
  <message>
   <source>Overvoltage setting of the charger; rating of the store.</source>
   <translation>Überspannungseinstellung des Ladereglers; Grenzwerte des Speichers.</translation>
  </message>
  <message>
   <source>Common practice, no source (a lithium-polymer cell ends charge at 4.2 V).</source>
   <translation>Übliche Praxis, ohne Quelle (bei einer Lithium-Polymer-Zelle endet das Laden bei 4,2 V).</translation>
  </message>
  <message>
   <source>How far the voltage must fall below full before charging resumes.</source>
   <translation>Wie weit die Spannung unter die Vollspannung fallen muss, bevor wieder geladen wird.</translation>
  </message>
  <message>
   <source>20 to 100 mV.</source>
   <translation>20 bis 100 mV.</translation>
  </message>
  <message>
   <source>Overvoltage hysteresis on the data sheet.</source>
   <translation>Hysterese der Überspannungsschwelle im Datenblatt.</translation>
  </message>
  <message>
   <source>What the charger itself draws from the store, day and night.</source>
   <translation>Was der Laderegler selbst dem Speicher entnimmt, Tag und Nacht.</translation>
  </message>
  <message>
   <source>0.3 to 0.7 µA for harvesting converters.</source>
   <translation>0,3 bis 0,7 µA bei Harvesting-Wandlern.</translation>
  </message>
  <message>
   <source>Quiescent current from the storage pin, at your temperature.</source>
   <translation>Eigenstrom aus dem Speicheranschluss, bei der eigenen Temperatur.</translation>
  </message>
  <message>
   <source>Source: data sheets of harvesting converters, 325 to 488 nA typical, 700 nA largest; the default is 500 nA.</source>
   <translation>Quelle: Datenblätter von Harvesting-Wandlern, typisch 325 bis 488 nA, höchstens 700 nA; die Vorgabe ist 500 nA.</translation>
  </message>
  <message>
   <source>Saturation current of the blocking diode. A larger one drops less voltage and leaks more back at night.</source>
   <translation>Sättigungsstrom der Sperrdiode. Ein größerer bedeutet weniger Spannungsabfall und mehr Rückstrom bei Nacht.</translation>
  </message>
  <message>
   <source>10 to 100 nA for a small Schottky diode.</source>
   <translation>10 bis 100 nA bei einer kleinen Schottky-Diode.</translation>
  </message>
  <message>
   <source>Not printed: from two points of the forward curve.</source>
   <translation>Nicht angegeben: aus zwei Punkten der Durchlasskennlinie.</translation>
  </message>
  <message>
   <source>Source: fit to a small Schottky diode's data sheet, 72 nA; extrapolated below 0.1 mA. The same sheet states 0.5 µA back at 25 V, 2 µA at most.</source>
   <translation>Quelle: Anpassung an das Datenblatt einer kleinen Schottky-Diode, 72 nA; unter 0,1 mA extrapoliert. Dasselbe Datenblatt nennt 0,5 µA Rückstrom bei 25 V, höchstens 2 µA.</translation>
  </message>
  <message>
   <source>How steeply the diode's current rises with voltage.</source>
   <translation>Wie steil der Diodenstrom mit der Spannung steigt.</translation>
  </message>
  <message>
   <source>1.05 to 1.3 for Schottky diodes, 1.5 to 2 for silicon.</source>
   <translation>1,05 bis 1,3 bei Schottky-Dioden, 1,5 bis 2 bei Silizium.</translation>
  </message>
  <message>
   <source>From two points of the forward curve on the data sheet.</source>
   <translation>Aus zwei Punkten der Durchlasskennlinie im Datenblatt.</translation>
  </message>
  <message>
   <source>Source: fit to a small Schottky diode's data sheet, 1.18; the range is from memory.</source>
   <translation>Quelle: Anpassung an das Datenblatt einer kleinen Schottky-Diode, 1,18; der Bereich ist aus dem Gedächtnis.</translation>
  </message>
  <message>
   <source>What holds the energy. Capacitors last and charge fast but hold little; supercapacitors hold hours to days; a lithium cell holds weeks and needs care.</source>
   <translation>Was die Energie speichert. Kondensatoren sind langlebig und laden schnell, speichern aber wenig; Superkondensatoren reichen für Stunden bis Tage; eine Lithiumzelle reicht für Wochen und braucht Sorgfalt.</translation>
  </message>
  <message>
   <source>Capacitor up to 10 mF, supercapacitor 0.1 to 50 F, cell above.</source>
   <translation>Kondensator bis 10 mF, Superkondensator 0,1 bis 50 F, darüber eine Akkuzelle.</translation>
  </message>
  <message>
   <source>Your parts list. Read the cautions of the kind that you choose.</source>
   <translation>Eigene Stückliste. Die Vorsichtshinweise zur gewählten Art lesen.</translation>
  </message>
  <message>
   <source>Capacitance of the whole bank, as rated. Two equal units in series have half of one.</source>
   <translation>Nennkapazität der ganzen Bank. Zwei gleiche Einheiten in Reihe haben die Hälfte von einer.</translation>
  </message>
  <message>
   <source>0.1 to 10 F of supercapacitor, 0.1 to 10 mF of electrolytic.</source>
   <translation>0,1 bis 10 F bei Superkondensatoren, 0,1 bis 10 mF bei Elkos.</translation>
  </message>
  <message>
   <source>Rated capacitance on the data sheet, times units in parallel, over units in series.</source>
   <translation>Nennkapazität im Datenblatt, mal Einheiten parallel, durch Einheiten in Reihe.</translation>
  </message>
  <message>
   <source>Common practice, no source. Measured units: a 25 F cell gave 27.3 F by IEC 62391-1.</source>
   <translation>Übliche Praxis, ohne Quelle. Gemessen: eine 25-F-Zelle hatte 27,3 F nach IEC 62391-1.</translation>
  </message>
  <message>
   <source>2 for a 5 V supercapacitor bank, 1 otherwise.</source>
   <translation>2 bei einer Superkondensatorbank für 5 V, sonst 1.</translation>
  </message>
  <message>
   <source>Largest voltage that one unit may see, at its rated temperature.</source>
   <translation>Höchste Spannung, die eine Einheit sehen darf, bei ihrer Nenntemperatur.</translation>
  </message>
  <message>
   <source>2.5 to 3.0 V for supercapacitors, 5.5 V for coin-type backup supercapacitors, 6.3 V and up for electrolytics.</source>
   <translation>2,5 bis 3,0 V bei Superkondensatoren, 5,5 V bei Backup-Superkondensatoren in Knopfform, ab 6,3 V bei Elkos.</translation>
  </message>
  <message>
   <source>Rated voltage on the data sheet or the sleeve.</source>
   <translation>Nennspannung im Datenblatt oder auf dem Mantel.</translation>
  </message>
  <message>
   <source>Series resistance of the whole bank, new, at room temperature. Every pulse drops current times this at once, however full the bank is.</source>
   <translation>Serienwiderstand der ganzen Bank, neu, bei Raumtemperatur. Bei jedem Puls fällt sofort Strom mal diesen Wert ab, so voll die Bank auch ist.</translation>
  </message>
  <message>
   <source>0.7 Ω over the farads for a pair of round cells, 0.03 for power types, 50 for coin-type backup ones: 0.7 Ω at 1 F, 30 to 200 Ω for small coin types.</source>
   <translation>0,7 Ω durch die Farad bei einem Paar runder Zellen, 0,03 bei Leistungstypen, 50 bei Backup-Typen in Knopfform: 0,7 Ω bei 1 F, 30 bis 200 Ω bei kleinen Knopftypen.</translation>
  </message>
  <message>
   <source>ESR on the data sheet: take the direct-current value, not that at 1 kHz.</source>
   <translation>ESR im Datenblatt: den Gleichstromwert nehmen, nicht den bei 1 kHz.</translation>
  </message>
  <message>
   <source>Source: 25 F cells of 23 to 27 mΩ, Zenodo 10.5281/zenodo.19221698; a 330 mF can of 150 Ω in a public forum thread; the rest is common practice, no source.</source>
   <translation>Quelle: 25-F-Zellen mit 23 bis 27 mΩ, Zenodo 10.5281/zenodo.19221698; ein 330-mF-Backup-Superkondensator mit 150 Ω in einem öffentlichen Forumsbeitrag; der Rest ist übliche Praxis, ohne Quelle.</translation>
  </message>
  <message>
   <source>Current that the bank loses by itself at rated voltage, days after the first charge.</source>
   <translation>Strom, den die Bank bei Nennspannung von selbst verliert, Tage nach der Erstladung.</translation>
  </message>
  <message>
   <source>0.5 to 2 µA per farad for supercapacitors; electrolytics up to 0.01 × C × V, far less after days.</source>
   <translation>0,5 bis 2 µA je Farad bei Superkondensatoren; bei Elkos bis 0,01 × C × V, nach Tagen weit weniger.</translation>
  </message>
  <message>
   <source>Leakage after 72 h on the data sheet; the sheet's value is a limit, a good unit is well below.</source>
   <translation>Leckstrom nach 72 h im Datenblatt; der Wert dort ist eine Grenze, ein gutes Exemplar liegt weit darunter.</translation>
  </message>
  <message>
   <source>Source: electrolytic rule 0.01 CV on data sheets; a measured supercapacitor leaked 1 µA against a limit of 30 µA.</source>
   <translation>Quelle: Elko-Regel 0,01 CV aus Datenblättern; ein gemessener Superkondensator hatte 1 µA Leckstrom bei einem Grenzwert von 30 µA.</translation>
  </message>
  <message>
   <source>Spread of one unit's capacitance around its rating, as a share. In series the smallest unit takes the most voltage.</source>
   <translation>Streuung der Kapazität einer Einheit um ihren Nennwert, als Anteil. In Reihe bekommt die kleinste Einheit die höchste Spannung.</translation>
  </message>
  <message>
   <source>0.2.</source>
   <translation>0,2.</translation>
  </message>
  <message>
   <source>Tolerance on the data sheet.</source>
   <translation>Toleranz im Datenblatt.</translation>
  </message>
  <message>
   <source>Age for which the design is judged. Capacitance and capacity fall and resistance rises with the years.</source>
   <translation>Alter, für das der Entwurf beurteilt wird. Mit den Jahren sinkt die Kapazität und steigt der Widerstand.</translation>
  </message>
  <message>
   <source>0 for the first day; 5 to 10 to be sure at the end.</source>
   <translation>0 für den ersten Tag; 5 bis 10, um bis zum Ende sicher zu sein.</translation>
  </message>
  <message>
   <source>Hours to end of life at rated voltage and temperature. At room temperature life is far longer.</source>
   <translation>Stunden bis zum Lebensende bei Nennspannung und Nenntemperatur. Bei Raumtemperatur ist die Lebensdauer weit länger.</translation>
  </message>
  <message>
   <source>1000 to 2000 h for supercapacitors, 2000 to 10 000 h for electrolytics.</source>
   <translation>1000 bis 2000 h bei Superkondensatoren, 2000 bis 10 000 h bei Elkos.</translation>
  </message>
  <message>
   <source>Endurance on the data sheet.</source>
   <translation>Lebensdauerangabe im Datenblatt.</translation>
  </message>
  <message>
   <source>Highest working temperature of a unit, at which its life is rated.</source>
   <translation>Höchste Betriebstemperatur einer Einheit, für die ihre Lebensdauer angegeben ist.</translation>
  </message>
  <message>
   <source>65 or 70 °C for supercapacitors, 85 or 105 °C for electrolytics.</source>
   <translation>65 oder 70 °C bei Superkondensatoren, 85 oder 105 °C bei Elkos.</translation>
  </message>
  <message>
   <source>Category temperature on the data sheet.</source>
   <translation>Kategorietemperatur im Datenblatt.</translation>
  </message>
  <message>
   <source>Share of capacitance whose loss counts as the end of life.</source>
   <translation>Anteil der Kapazität, dessen Verlust als Lebensende zählt.</translation>
  </message>
  <message>
   <source>0.2 or 0.3.</source>
   <translation>0,2 oder 0,3.</translation>
  </message>
  <message>
   <source>Endurance conditions on the data sheet.</source>
   <translation>Bedingungen der Lebensdauerangabe im Datenblatt.</translation>
  </message>
  <message>
   <source>Source: makers' life notes, 20 to 30 % loss.</source>
   <translation>Quelle: Lebensdauerhinweise von Herstellern, 20 bis 30 % Verlust.</translation>
  </message>
  <message>
   <source>1, up to 3 on some data sheets.</source>
   <translation>1, in manchen Datenblättern bis 3.</translation>
  </message>
  <message>
   <source>Source: makers' life notes, +100 %.</source>
   <translation>Quelle: Lebensdauerhinweise von Herstellern, +100 %.</translation>
  </message>
  <message>
   <source>Factor on life for every 0.1 V that a unit stays below its rated voltage; 1 means no effect.</source>
   <translation>Faktor auf die Lebensdauer je 0,1 V, um die eine Einheit unter ihrer Nennspannung bleibt; 1 heißt ohne Wirkung.</translation>
  </message>
  <message>
   <source>1.3 for supercapacitors, 1 for electrolytics.</source>
   <translation>1,3 bei Superkondensatoren, 1 bei Elkos.</translation>
  </message>
  <message>
   <source>Life notes of the maker.</source>
   <translation>Lebensdauerhinweise des Herstellers.</translation>
  </message>
  <message>
   <source>Source: a supercapacitor maker's life note.</source>
   <translation>Quelle: Lebensdauerhinweis eines Herstellers von Superkondensatoren.</translation>
  </message>
  <message>
   <source>Series resistance at −20 °C over that at 20 °C.</source>
   <translation>Serienwiderstand bei −20 °C durch den bei 20 °C.</translation>
  </message>
  <message>
   <source>1.5 to 2 for supercapacitors, 4 and more for electrolytics.</source>
   <translation>1,5 bis 2 bei Superkondensatoren, 4 und mehr bei Elkos.</translation>
  </message>
  <message>
   <source>Curve of ESR against temperature, or the impedance ratio.</source>
   <translation>Kurve des ESR über der Temperatur, oder das Impedanzverhältnis.</translation>
  </message>
  <message>
   <source>Voltage of the bank when the trace begins.</source>
   <translation>Spannung der Bank am Anfang des Verlaufs.</translation>
  </message>
  <message>
   <source>0 V, as unpacked; the full voltage if charged before it is hung up.</source>
   <translation>0 V, wie ausgepackt; die Vollspannung, wenn vor dem Aufhängen geladen.</translation>
  </message>
  <message>
   <source>A voltmeter.</source>
   <translation>Ein Voltmeter.</translation>
  </message>
  <message>
   <source>Voltage below which one unit must not fall. Only hybrid (lithium-ion) capacitors have one.</source>
   <translation>Spannung, unter die eine Einheit nicht fallen darf. Nur Hybridkondensatoren (Lithium-Ionen-Kondensatoren) haben eine.</translation>
  </message>
  <message>
   <source>0 V; 2.2 to 2.5 V for hybrids.</source>
   <translation>0 V; 2,2 bis 2,5 V bei Hybridkondensatoren.</translation>
  </message>
  <message>
   <source>Lower category voltage on the data sheet.</source>
   <translation>Untere Kategoriespannung im Datenblatt.</translation>
  </message>
  <message>
   <source>How much capacitance rises from 0.6 to 1.6 of the rated voltage: charge is the integral of it.</source>
   <translation>Wie stark die Kapazität vom 0,6- bis zum 1,6-Fachen der Nennspannung steigt: Die Ladung ist ihr Integral.</translation>
  </message>
  <message>
   <source>0.29 fits measured units, one unit more lies within ±0.2; 0 for a constant capacitance.</source>
   <translation>0,29 passt zu gemessenen Einheiten, eine weitere liegt innerhalb von ±0,2; 0 für eine konstante Kapazität.</translation>
  </message>
  <message>
   <source>Not printed: from a discharge curve at constant current.</source>
   <translation>Nicht angegeben: aus einer Entladekurve bei konstantem Strom.</translation>
  </message>
  <message>
   <source>Source: mean of four measured 25 F and 50 F units, each fitted for itself, Zenodo 10.5281/zenodo.19221698.</source>
   <translation>Quelle: Mittel von vier gemessenen Einheiten mit 25 F und 50 F, jede für sich angepasst, Zenodo 10.5281/zenodo.19221698.</translation>
  </message>
  <message>
   <source>0.41 fits measured units, one unit more lies within ±0.13; 0 for none.</source>
   <translation>0,41 passt zu gemessenen Einheiten, eine weitere liegt innerhalb von ±0,13; 0 für keine.</translation>
  </message>
  <message>
   <source>Which leakage counts: settled, or the mean of the first three days, when a new supercapacitor still takes far more.</source>
   <translation>Welcher Leckstrom zählt: der eingeschwungene oder der Mittelwert der ersten drei Tage, in denen ein neuer Superkondensator noch weit mehr aufnimmt.</translation>
  </message>
  <message>
   <source>Settled; first days to judge the hanging-up.</source>
   <translation>Eingeschwungen; erste Tage, um das Aufhängen zu beurteilen.</translation>
  </message>
  <message>
   <source>Leakage in the first hours over the settled one.</source>
   <translation>Leckstrom der ersten Stunden durch den eingeschwungenen.</translation>
  </message>
  <message>
   <source>5 to 100: testers report one to several hundred microampere against about one after days.</source>
   <translation>5 bis 100: Tester berichten von einem bis mehreren hundert Mikroampere gegenüber etwa einem nach Tagen.</translation>
  </message>
  <message>
   <source>Curve of leakage against time on the data sheet.</source>
   <translation>Kurve des Leckstroms über der Zeit im Datenblatt.</translation>
  </message>
  <message>
   <source>Own judgement, no source; sheets give the value after 72 h because it falls that long.</source>
   <translation>Eigene Einschätzung, ohne Quelle; Datenblätter geben den Wert nach 72 h an, weil er so lange fällt.</translation>
  </message>
  <message>
   <source>Time constant of the fall of leakage.</source>
   <translation>Zeitkonstante, mit der der Leckstrom abklingt.</translation>
  </message>
  <message>
   <source>24 h: little is left of it after three days.</source>
   <translation>24 h: nach drei Tagen ist wenig davon übrig.</translation>
  </message>
  <message>
   <source>Common practice, no source; data sheets soak for 72 h.</source>
   <translation>Übliche Praxis, ohne Quelle; für Datenblattwerte wird 72 h lang geladen.</translation>
  </message>
  <message>
   <source>What keeps units in series at equal voltage: nothing, resistors that always draw, or an active circuit.</source>
   <translation>Was Einheiten in Reihe auf gleicher Spannung hält: nichts, Widerstände, die ständig Strom ziehen, oder eine aktive Schaltung.</translation>
  </message>
  <message>
   <source>Active for harvesting; resistors cost too much.</source>
   <translation>Aktiv beim Energy Harvesting; Widerstände kosten zu viel.</translation>
  </message>
  <message>
   <source>Current taken by the balancing at rated voltage, all the time.</source>
   <translation>Strom, den die Symmetrierung bei Nennspannung ständig zieht.</translation>
  </message>
  <message>
   <source>0.05 to 0.5 µA active; resistors about ten times the leakage.</source>
   <translation>0,05 bis 0,5 µA aktiv; Widerstände etwa das Zehnfache des Leckstroms.</translation>
  </message>
  <message>
   <source>Data sheet of the balancing part; with resistors, voltage over resistance.</source>
   <translation>Datenblatt des Balancierbausteins; bei Widerständen Spannung durch Widerstand.</translation>
  </message>
  <message>
   <source>Source: a capacitor maker's rule of ten times the leakage for resistors; the active value is common practice, no source.</source>
   <translation>Quelle: Regel eines Kondensatorherstellers, für Widerstände das Zehnfache des Leckstroms; der Wert für aktive Schaltungen ist übliche Praxis, ohne Quelle.</translation>
  </message>
  <message>
   <source>Kind of lithium cell. It sets the voltage window and how level the voltage stays.</source>
   <translation>Art der Lithiumzelle. Sie bestimmt das Spannungsfenster und wie eben die Spannung verläuft.</translation>
  </message>
  <message>
   <source>Lithium-ion 3.0 to 4.2 V, iron phosphate 2.0 to 3.6 V, titanate about 2.3 V and fit for the cold.</source>
   <translation>Lithium-Ionen 3,0 bis 4,2 V, Eisenphosphat 2,0 bis 3,6 V, Titanat etwa 2,3 V und kältetauglich.</translation>
  </message>
  <message>
   <source>Source: open-circuit curves after Ai 2020 and Prada 2013 (PyBaMM); titanate is modelled, from memory.</source>
   <translation>Quelle: Leerlaufkennlinien nach Ai 2020 und Prada 2013 (PyBaMM); Titanat ist modelliert, aus dem Gedächtnis.</translation>
  </message>
  <message>
   <source>Charge that the cell gives from full to empty, as rated.</source>
   <translation>Nennladung, die die Zelle von voll bis leer abgibt.</translation>
  </message>
  <message>
   <source>10 to 120 mAh for coin cells, 40 to 2000 mAh for pouches.</source>
   <translation>10 bis 120 mAh bei Knopfzellen, 40 bis 2000 mAh bei Pouch-Zellen.</translation>
  </message>
  <message>
   <source>Capacity on the cell or its data sheet.</source>
   <translation>Kapazität auf der Zelle oder in ihrem Datenblatt.</translation>
  </message>
  <message>
   <source>Cells that share the store's voltage. Each needs its own watch.</source>
   <translation>Zellen, die sich die Spannung des Speichers teilen. Jede muss einzeln überwacht werden.</translation>
  </message>
  <message>
   <source>Resistance of the whole store, new, at room temperature. Every pulse drops current times this.</source>
   <translation>Widerstand des ganzen Speichers, neu, bei Raumtemperatur. Bei jedem Puls fällt Strom mal diesen Wert ab.</translation>
  </message>
  <message>
   <source>0.5 to 2 Ω for 40 mAh with a protection circuit; 40 Ω over the mAh.</source>
   <translation>0,5 bis 2 Ω bei 40 mAh mit Schutzschaltung; 40 Ω geteilt durch die mAh.</translation>
  </message>
  <message>
   <source>Internal resistance on the data sheet; the value at 1 kHz is too low for long pulses.</source>
   <translation>Innenwiderstand im Datenblatt; der Wert bei 1 kHz ist für lange Pulse zu niedrig.</translation>
  </message>
  <message>
   <source>Share of the capacity that is lost in a month without a load, with its protection circuit.</source>
   <translation>Anteil der Kapazität, der ohne Verbraucher in einem Monat verloren geht, mit Schutzschaltung.</translation>
  </message>
  <message>
   <source>0.02 for a bare cell; a protection circuit of 2 µA adds 0.04 to 40 mAh and 0.01 to 150 mAh.</source>
   <translation>0,02 bei einer nackten Zelle; eine Schutzschaltung mit 2 µA fügt bei 40 mAh 0,04 und bei 150 mAh 0,01 hinzu.</translation>
  </message>
  <message>
   <source>Charge retention on the data sheet.</source>
   <translation>Ladungserhaltung im Datenblatt.</translation>
  </message>
  <message>
   <source>Source: battery handbook pages, 1 to 3 % a month, 3 % more for a protection circuit; that one draws 1 to 4 µA is from memory.</source>
   <translation>Quelle: Seiten eines Batteriehandbuchs, 1 bis 3 % im Monat, 3 % mehr für eine Schutzschaltung; dass eine solche 1 bis 4 µA aufnimmt, ist aus dem Gedächtnis.</translation>
  </message>
  <message>
   <source>Half of the capacity in an hour: 20 mA for 40 mAh.</source>
   <translation>Die halbe Kapazität je Stunde: 20 mA bei 40 mAh.</translation>
  </message>
  <message>
   <source>Maximum charge current on the data sheet.</source>
   <translation>Größter Ladestrom im Datenblatt.</translation>
  </message>
  <message>
   <source>Once or twice the capacity in an hour.</source>
   <translation>Das Ein- bis Zweifache der Kapazität je Stunde.</translation>
  </message>
  <message>
   <source>Maximum discharge current on the data sheet; pulses may be allowed more.</source>
   <translation>Größter Entladestrom im Datenblatt; für Pulse kann mehr erlaubt sein.</translation>
  </message>
  <message>
   <source>No charging at or below this temperature: metallic lithium would plate out, which cannot be undone.</source>
   <translation>Kein Laden bei oder unter dieser Temperatur: Es würde sich metallisches Lithium abscheiden, und das ist nicht umkehrbar.</translation>
  </message>
  <message>
   <source>0 °C; lower only where the data sheet says so.</source>
   <translation>0 °C; niedriger nur, wo das Datenblatt es erlaubt.</translation>
  </message>
  <message>
   <source>Charging temperature on the data sheet.</source>
   <translation>Ladetemperatur im Datenblatt.</translation>
  </message>
  <message>
   <source>Source: charger register maps after the JEITA profile; no charge below 0 °C.</source>
   <translation>Quelle: Registertabellen von Ladereglern nach dem JEITA-Profil; kein Laden unter 0 °C.</translation>
  </message>
  <message>
   <source>45 °C.</source>
   <translation>45 °C.</translation>
  </message>
  <message>
   <source>Source: charger register maps after the JEITA profile; 45 to 60 °C at reduced voltage only.</source>
   <translation>Quelle: Registertabellen von Ladereglern nach dem JEITA-Profil; 45 bis 60 °C nur bei verringerter Spannung.</translation>
  </message>
  <message>
   <source>10 °C.</source>
   <translation>10 °C.</translation>
  </message>
  <message>
   <source>Charging temperature on the data sheet, in steps.</source>
   <translation>Ladetemperatur im Datenblatt, in Stufen.</translation>
  </message>
  <message>
   <source>Source: charger register maps after the JEITA profile, 0 to 10 °C.</source>
   <translation>Quelle: Registertabellen von Ladereglern nach dem JEITA-Profil, 0 bis 10 °C.</translation>
  </message>
  <message>
   <source>Share of the charging limit that is left when the cell is cool.</source>
   <translation>Anteil des Ladestromgrenzwerts, der bei kühler Zelle übrig bleibt.</translation>
  </message>
  <message>
   <source>Source: charger register maps after the JEITA profile: 0, 20, 40 or 100 %, 20 % by default.</source>
   <translation>Quelle: Registertabellen von Ladereglern nach dem JEITA-Profil: 0, 20, 40 oder 100 %, Vorgabe 20 %.</translation>
  </message>
  <message>
   <source>Capacity at −20 °C over that at 20 °C.</source>
   <translation>Kapazität bei −20 °C durch die bei 20 °C.</translation>
  </message>
  <message>
   <source>0.5 to 0.7 for lithium-ion.</source>
   <translation>0,5 bis 0,7 bei Lithium-Ionen.</translation>
  </message>
  <message>
   <source>Discharge curves against temperature.</source>
   <translation>Entladekurven über der Temperatur.</translation>
  </message>
  <message>
   <source>Resistance at −20 °C over that at 20 °C.</source>
   <translation>Widerstand bei −20 °C durch den bei 20 °C.</translation>
  </message>
  <message>
   <source>3 to 10 for lithium-ion.</source>
   <translation>3 bis 10 bei Lithium-Ionen.</translation>
  </message>
  <message>
   <source>Pulse curves against temperature, where given.</source>
   <translation>Pulskurven über der Temperatur, sofern angegeben.</translation>
  </message>
  <message>
   <source>Full cycles until 80 % of the capacity is left.</source>
   <translation>Vollzyklen, bis noch 80 % der Kapazität übrig sind.</translation>
  </message>
  <message>
   <source>300 to 500 for lithium-ion, 2000 for iron phosphate, 10 000 for titanate.</source>
   <translation>300 bis 500 bei Lithium-Ionen, 2000 bei Eisenphosphat, 10 000 bei Titanat.</translation>
  </message>
  <message>
   <source>Cycle life on the data sheet, with its depth of discharge.</source>
   <translation>Zyklenlebensdauer im Datenblatt, mit ihrer Entladetiefe.</translation>
  </message>
  <message>
   <source>Charge taken from the cell in a year over its capacity.</source>
   <translation>Ladung, die der Zelle in einem Jahr entnommen wird, durch ihre Kapazität.</translation>
  </message>
  <message>
   <source>10 to 100 for harvesting: small daily swings add up to few full cycles.</source>
   <translation>10 bis 100 beim Energy Harvesting: Kleine tägliche Hübe ergeben wenige Vollzyklen.</translation>
  </message>
  <message>
   <source>From the energy budget: weekly draw × 52 over the capacity.</source>
   <translation>Aus der Energiebilanz: wöchentliche Entnahme × 52 durch die Kapazität.</translation>
  </message>
  <message>
   <source>Share of the capacity lost in a year at rest at 25 °C; it is faster when warm and full.</source>
   <translation>Anteil der Kapazität, der in einem Jahr Ruhe bei 25 °C verloren geht; bei warmer, voller Zelle geht es schneller.</translation>
  </message>
  <message>
   <source>0.02 to 0.04.</source>
   <translation>0,02 bis 0,04.</translation>
  </message>
  <message>
   <source>Storage conditions on the data sheet.</source>
   <translation>Lagerbedingungen im Datenblatt.</translation>
  </message>
  <message>
   <source>State of charge when the trace begins, 0 to 1.</source>
   <translation>Ladezustand am Anfang des Verlaufs, 0 bis 1.</translation>
  </message>
  <message>
   <source>0.3, as lithium cells are shipped.</source>
   <translation>0,3, wie Lithiumzellen ausgeliefert werden.</translation>
  </message>
  <message>
   <source>You know it, or from the open-circuit voltage.</source>
   <translation>Bekannt oder aus der Leerlaufspannung.</translation>
  </message>
  <message>
   <source>Common practice, no source (air transport asks for 30 % at most, from memory).</source>
   <translation>Übliche Praxis, ohne Quelle (der Lufttransport verlangt höchstens 30 %, aus dem Gedächtnis).</translation>
  </message>
  <message>
   <source>Rising store voltage at which the device is connected. Higher means a later but surer start, with more energy for the start-up.</source>
   <translation>Steigende Speicherspannung, bei der das Gerät eingeschaltet wird. Höher heißt späterer, aber sichererer Start, mit mehr Energie für den Anlauf.</translation>
  </message>
  <message>
   <source>3.2 to 4.2 V on a 5 V store, 3.5 V on a lithium cell.</source>
   <translation>3,2 bis 4,2 V an einem 5-V-Speicher, 3,5 V an einer Lithiumzelle.</translation>
  </message>
  <message>
   <source>Power-good or load-switch threshold.</source>
   <translation>Schwelle des Power-Good-Signals oder des Lastschalters.</translation>
  </message>
  <message>
   <source>Falling store voltage at which the device is cut off. The gap to the connect voltage must hold the energy of a start-up, or the device tries for ever.</source>
   <translation>Fallende Speicherspannung, bei der das Gerät abgeschaltet wird. Der Abstand zur Einschaltspannung muss die Energie für einen Anlauf enthalten, sonst versucht es das Gerät endlos.</translation>
  </message>
  <message>
   <source>1.8 to 2.6 V; 3.0 to 3.2 V on a lithium-ion cell.</source>
   <translation>1,8 bis 2,6 V; 3,0 bis 3,2 V an einer Lithium-Ionen-Zelle.</translation>
  </message>
  <message>
   <source>Undervoltage threshold of load switch or supervisor.</source>
   <translation>Unterspannungsschwelle des Lastschalters oder des Spannungswächters.</translation>
  </message>
  <message>
   <source>Least voltage at the terminals at which the device still works, also in the dip of a pulse.</source>
   <translation>Kleinste Klemmenspannung, bei der das Gerät noch arbeitet, auch im Einbruch bei einem Puls.</translation>
  </message>
  <message>
   <source>1.8 to 2.2 V for microcontrollers, 2.0 to 2.5 V with a radio.</source>
   <translation>1,8 bis 2,2 V bei Mikrocontrollern, 2,0 bis 2,5 V mit Funkmodul.</translation>
  </message>
  <message>
   <source>Operating voltage of every part; the highest minimum counts.</source>
   <translation>Betriebsspannung aller Bauteile; die höchste Untergrenze zählt.</translation>
  </message>
  <message>
   <source>0.1 to 10 s.</source>
   <translation>0,1 bis 10 s.</translation>
  </message>
  <message>
   <source>Your supervisor's delay.</source>
   <translation>Verzögerung des eigenen Spannungswächters.</translation>
  </message>
  <message>
   <source>Capacitance behind the load switch, filled from the store at every connect.</source>
   <translation>Kapazität hinter dem Lastschalter; sie wird bei jedem Einschalten aus dem Speicher gefüllt.</translation>
  </message>
  <message>
   <source>10 to 100 µF.</source>
   <translation>10 bis 100 µF.</translation>
  </message>
  <message>
   <source>Sum of the capacitors on the device's supply.</source>
   <translation>Summe der Kondensatoren an der Versorgung des Geräts.</translation>
  </message>
  <message>
   <source>What the device draws all the time between its operations. It often takes more in a day than the pulses do.</source>
   <translation>Was das Gerät zwischen seinen Vorgängen ständig zieht. Oft ist das an einem Tag mehr, als die Pulse brauchen.</translation>
  </message>
  <message>
   <source>0.5 to 5 µA for a good design; a forgotten pull-up or sensor makes it 50 µA.</source>
   <translation>0,5 bis 5 µA bei gutem Entwurf; ein vergessener Pull-up oder Sensor macht 50 µA daraus.</translation>
  </message>
  <message>
   <source>Measure it with a microammeter; data sheets give the chips alone.</source>
   <translation>Mit einem Mikroamperemeter messen; Datenblätter nennen nur die Werte einzelner Chips.</translation>
  </message>
  <message>
   <source>Common practice, no source; the default of 2 µA is a good design, so measure yours.</source>
   <translation>Übliche Praxis, ohne Quelle; die Vorgabe von 2 µA ist ein guter Entwurf, also den eigenen messen.</translation>
  </message>
  <message>
   <source>What the device moves, if anything. It changes no number and brings up the cautions that apply.</source>
   <translation>Was das Gerät bewegt, falls überhaupt. Es ändert keine Zahl und ruft die zutreffenden Vorsichtshinweise auf.</translation>
  </message>
  <message>
   <source>None.</source>
   <translation>Nichts.</translation>
  </message>
  <message>
   <source>Your device.</source>
   <translation>Eigenes Gerät.</translation>
  </message>
  <message>
   <source>The largest current that the load output of a harvesting board carries, switch and protection included. It is a rating and is checked against the largest draw, start-up included; the charger's own output limit is another thing and only holds back charging. Empty: the load sits directly on the store.</source>
   <translation>Der größte Strom, den der Lastausgang einer Ladeplatine trägt, mit Schalter und Schutz. Er ist ein Grenzwert und wird gegen die größte Entnahme geprüft, auch beim Anlauf; die Ausgangsgrenze des Ladereglers ist etwas anderes und bremst nur das Laden. Leer: Die Last hängt direkt am Speicher.</translation>
  </message>
  <message>
   <source>50 mA to 1 A. Empty where the load is wired to the store.</source>
   <translation>50 mA bis 1 A. Leer, wo die Last am Speicher verdrahtet ist.</translation>
  </message>
  <message>
   <source>The board's sheet, under load output or VOUT current.</source>
   <translation>Im Datenblatt der Platine, unter Lastausgang oder VOUT-Strom.</translation>
  </message>
  <message>
   <source>Store voltage at which the board's indicator, a light or a pin, says that the store is charged. It is drawn on the trace, and the time to reach it from empty with the device off is told; what must be filled within a time is filled at this level.</source>
   <translation>Speicherspannung, bei der die Anzeige der Platine, ein Lämpchen oder ein Ausgang, „geladen“ meldet. Sie wird im Verlauf gezeichnet, und die Zeit dahin ab leer bei ausgeschaltetem Gerät wird angegeben; was binnen einer Zeit gefüllt sein muss, ist bei dieser Schwelle gefüllt.</translation>
  </message>
  <message>
   <source>90 % of full. Empty where there is none.</source>
   <translation>90 % von voll. Leer, wo es keine gibt.</translation>
  </message>
  <message>
   <source>The board's sheet.</source>
   <translation>Das Datenblatt der Platine.</translation>
  </message>
  <message>
   <source>The same level as a share of the energy of a full store. It counts where no voltage is given.</source>
   <translation>Dieselbe Schwelle als Anteil der Energie eines vollen Speichers. Sie zählt, wo keine Spannung angegeben ist.</translation>
  </message>
  <message>
   <source>80 % of the energy, 89 % of the voltage of a capacitor. Empty where there is none.</source>
   <translation>80 % der Energie, 89 % der Spannung eines Kondensators. Leer, wo es keine gibt.</translation>
  </message>
  <message>
   <source>By definition: the voltage is the root of 0.8.</source>
   <translation>Per Definition: Die Spannung ist die Wurzel aus 0,8.</translation>
  </message>
  <message>
   <source>Energy kept in the store for one last safe action, such as closing a valve. What is below it does not count as dark reserve.</source>
   <translation>Energie, die für eine letzte sichere Handlung im Speicher bleibt, etwa um ein Ventil zu schließen. Was darunter liegt, zählt im Dunkeln nicht mit.</translation>
  </message>
  <message>
   <source>0.6 J for one move of a small latching valve.</source>
   <translation>0,6 J für eine Bewegung eines kleinen bistabilen Ventils.</translation>
  </message>
  <message>
   <source>Voltage × current × time of the action, over the efficiency on the way.</source>
   <translation>Spannung × Strom × Dauer der Handlung, durch den Wirkungsgrad auf dem Weg dorthin.</translation>
  </message>
  <message>
   <source>Source: public valve pages, 12 V · 1 A · 50 ms.</source>
   <translation>Quelle: öffentliche Seiten zu Ventilen, 12 V · 1 A · 50 ms.</translation>
  </message>
  <message>
   <source>What stands between store and device: nothing, a linear regulator, or a switching one.</source>
   <translation>Was zwischen Speicher und Gerät liegt: nichts, ein Linearregler oder ein Schaltregler.</translation>
  </message>
  <message>
   <source>None where the device takes the store's whole range.</source>
   <translation>Keiner, wo das Gerät den ganzen Spannungsbereich des Speichers verträgt.</translation>
  </message>
  <message>
   <source>Voltage that the device gets.</source>
   <translation>Spannung, die das Gerät bekommt.</translation>
  </message>
  <message>
   <source>1.8, 2.5, 3.0 or 3.3 V.</source>
   <translation>1,8, 2,5, 3,0 oder 3,3 V.</translation>
  </message>
  <message>
   <source>Least voltage across a linear regulator; below it the output sinks.</source>
   <translation>Kleinste Spannung über einem Linearregler; darunter sinkt der Ausgang.</translation>
  </message>
  <message>
   <source>0.05 to 0.3 V at small currents.</source>
   <translation>0,05 bis 0,3 V bei kleinen Strömen.</translation>
  </message>
  <message>
   <source>Dropout voltage on the data sheet at your pulse current.</source>
   <translation>Dropout-Spannung im Datenblatt beim eigenen Pulsstrom.</translation>
  </message>
  <message>
   <source>What the regulator draws for itself at all times.</source>
   <translation>Was der Regler ständig für sich selbst zieht.</translation>
  </message>
  <message>
   <source>0.03 to 2 µA for parts made for batteries.</source>
   <translation>0,03 bis 2 µA bei Bausteinen für Batteriebetrieb.</translation>
  </message>
  <message>
   <source>Ground or quiescent current, at light load.</source>
   <translation>Masse- oder Eigenstrom, bei kleiner Last.</translation>
  </message>
  <message>
   <source>Output power over input power of a switching regulator.</source>
   <translation>Ausgangsleistung durch Eingangsleistung eines Schaltreglers.</translation>
  </message>
  <message>
   <source>0.8 to 0.93; lower at microamperes.</source>
   <translation>0,8 bis 0,93; niedriger bei Mikroampere.</translation>
  </message>
  <message>
   <source>Efficiency curves on the data sheet, at your pulse and at your sleep current.</source>
   <translation>Wirkungsgradkurven im Datenblatt, beim eigenen Puls- und beim eigenen Schlafstrom.</translation>
  </message>
  <message>
   <source>Common practice, no source; the default of 0.85 is what is left over a load of microamperes to tens of milliamperes, from memory.</source>
   <translation>Übliche Praxis, ohne Quelle; die Vorgabe 0,85 ist, was bei Lasten von Mikroampere bis zu einigen zehn Milliampere bleibt, aus dem Gedächtnis.</translation>
  </message>
  <message>
   <source>Least input voltage of a switching regulator.</source>
   <translation>Kleinste Eingangsspannung eines Schaltreglers.</translation>
  </message>
  <message>
   <source>0.8 to 2.5 V.</source>
   <translation>0,8 bis 2,5 V.</translation>
  </message>
  <message>
   <source>Input range on the data sheet; mind that start-up may need more.</source>
   <translation>Eingangsbereich im Datenblatt; der Anlauf kann mehr brauchen.</translation>
  </message>
  <message>
   <source>What the device does in this operation.</source>
   <translation>Was das Gerät in diesem Vorgang tut.</translation>
  </message>
  <message>
   <source>“measure and send”.</source>
   <translation>„messen und senden“.</translation>
  </message>
  <message>
   <source>When an operation runs: at a fixed interval, whenever the store has charged up, or from every connect until the store gives out. The last is the only operation of its device, and the duration of its phase is the least length that counts.</source>
   <translation>Wann ein Vorgang läuft: in festem Abstand, immer wenn der Speicher geladen ist, oder ab jedem Einschalten, bis der Speicher leer ist. Der letzte ist der einzige Vorgang seines Geräts, und die Dauer seiner Phase ist die kürzeste, die zählt.</translation>
  </message>
  <message>
   <source>At a fixed interval.</source>
   <translation>In festem Intervall.</translation>
  </message>
  <message>
   <source>Your firmware.</source>
   <translation>Eigene Firmware.</translation>
  </message>
  <message>
   <source>Time from one start to the next.</source>
   <translation>Zeit von einem Start zum nächsten.</translation>
  </message>
  <message>
   <source>1 min to 1 h. Twice the interval nearly halves the energy of the pulses.</source>
   <translation>1 min bis 1 h. Das doppelte Intervall halbiert die Energie der Pulse beinahe.</translation>
  </message>
  <message>
   <source>Your firmware; ask what the user really needs.</source>
   <translation>Eigene Firmware; fragen, was wirklich gebraucht wird.</translation>
  </message>
  <message>
   <source>Days on which the operation is due.</source>
   <translation>Tage, an denen der Vorgang fällig ist.</translation>
  </message>
  <message>
   <source>All days.</source>
   <translation>Alle Tage.</translation>
  </message>
  <message>
   <source>Hour of the day from which the operation is due.</source>
   <translation>Uhrzeit, ab der der Vorgang fällig ist.</translation>
  </message>
  <message>
   <source>0 h.</source>
   <translation>0 h.</translation>
  </message>
  <message>
   <source>Hour of the day until which the operation is due.</source>
   <translation>Uhrzeit, bis zu der der Vorgang fällig ist.</translation>
  </message>
  <message>
   <source>24 h.</source>
   <translation>24 h.</translation>
  </message>
  <message>
   <source>Store voltage that starts the operation; it waits until the store is charged up to it again.</source>
   <translation>Speicherspannung, die den Vorgang startet; er wartet, bis der Speicher wieder so weit aufgeladen ist.</translation>
  </message>
  <message>
   <source>A little below the full voltage.</source>
   <translation>Etwas unter der Vollspannung.</translation>
  </message>
  <message>
   <source>Comparator or firmware threshold.</source>
   <translation>Schwelle des Komparators oder der Firmware.</translation>
  </message>
  <message>
   <source>1 to 100.</source>
   <translation>1 bis 100.</translation>
  </message>
  <message>
   <source>“listen”, “send”, “drive the display”.</source>
   <translation>„empfangen“, „senden“, „Anzeige ansteuern“.</translation>
  </message>
  <message>
   <source>Constant current that the device draws in this phase, behind the regulator if there is one.</source>
   <translation>Konstanter Strom, den das Gerät in dieser Phase zieht, hinter dem Regler, falls vorhanden.</translation>
  </message>
  <message>
   <source>Microcontroller awake 1 to 5 mA, short-range radio 5 to 15 mA, long-range radio 30 to 120 mA.</source>
   <translation>Wacher Mikrocontroller 1 bis 5 mA, Nahbereichsfunk 5 bis 15 mA, Funk über große Entfernung 30 bis 120 mA.</translation>
  </message>
  <message>
   <source>Supply current on the data sheet of each part, or an oscilloscope across a small resistor.</source>
   <translation>Versorgungsstrom im Datenblatt jedes Bauteils, oder ein Oszilloskop an einem kleinen Widerstand.</translation>
  </message>
  <message>
   <source>Constant power that the device draws in this phase.</source>
   <translation>Konstante Leistung, die das Gerät in dieser Phase zieht.</translation>
  </message>
  <message>
   <source>A photo-acoustic carbon-dioxide sensor some 50 to 80 mW for 5 s; a picture to an e-paper tag 0.3 to 0.5 J by radio and 0.01 J to draw.</source>
   <translation>Ein photoakustischer Kohlendioxidsensor etwa 50 bis 80 mW für 5 s; ein Bild auf ein E-Paper-Schild 0,3 bis 0,5 J über Funk und 0,01 J zum Zeichnen.</translation>
  </message>
  <message>
   <source>Voltage × current on the data sheet.</source>
   <translation>Spannung × Strom aus dem Datenblatt.</translation>
  </message>
  <message>
   <source>Source: sensor data sheets, 0.25 to 0.35 J a reading; a measured e-paper tag, published by who measured it.</source>
   <translation>Quelle: Sensordatenblätter, 0,25 bis 0,35 J je Messung; ein gemessenes E-Paper-Schild, veröffentlicht von denen, die es gemessen haben.</translation>
  </message>
  <message>
   <source>Resistance that the device connects in this phase, such as a heater or a coil.</source>
   <translation>Widerstand, den das Gerät in dieser Phase anschließt, etwa eine Heizung oder eine Spule.</translation>
  </message>
  <message>
   <source>12 Ω for a small 12 V latching coil.</source>
   <translation>12 Ω bei einer kleinen bistabilen 12-V-Spule.</translation>
  </message>
  <message>
   <source>An ohmmeter.</source>
   <translation>Ein Ohmmeter.</translation>
  </message>
  <message>
   <source>Source: public valve pages, 12 V · 1 A.</source>
   <translation>Quelle: öffentliche Seiten zu Ventilen, 12 V · 1 A.</translation>
  </message>
  <message>
   <source>Length of the phase.</source>
   <translation>Länge der Phase.</translation>
  </message>
  <message>
   <source>Sensor 20 to 100 ms; short-range radio 5 ms; long-range radio 40 ms to 1 s.</source>
   <translation>Sensor 20 bis 100 ms; Kurzstreckenfunk 5 ms; Langstreckenfunk 40 ms bis 1 s.</translation>
  </message>
  <message>
   <source>Time it with an oscilloscope; count retries and waiting for an answer.</source>
   <translation>Mit dem Oszilloskop messen; Wiederholungen und Warten auf Antwort mitzählen.</translation>
  </message>
  <message>
   <source>Source: LoRa time-on-air formula, 10 bytes: 41 ms (SF7) to 991 ms (SF12); the rest is common practice, no source.</source>
   <translation>Quelle: LoRa-Formel für die Sendedauer, 10 Byte: 41 ms (SF7) bis 991 ms (SF12); der Rest ist übliche Praxis, ohne Quelle.</translation>
  </message>
  <message>
   <source>Available over needed that counts as Runs. Empty: it follows from how the light is known.</source>
   <translation>Verhältnis von verfügbar zu benötigt, das als „Läuft“ zählt. Leer: ergibt sich daraus, wie das Licht bekannt ist.</translation>
  </message>
  <message>
   <source>1.3 with a lux meter at the panel, 1.6 with a phone app or lamp data, 2.0 for a guess.</source>
   <translation>1,3 mit einem Luxmeter am Modul, 1,6 mit Handy-App oder Lampendaten, 2,0 bei einer Schätzung.</translation>
  </message>
  <message>
   <source>Longest time from an empty store to the first operation.</source>
   <translation>Längste Zeit vom leeren Speicher bis zum ersten Vorgang.</translation>
  </message>
  <message>
   <source>2 h at a demonstration, 168 h (a week) in a building.</source>
   <translation>2 h bei einer Vorführung, 168 h (eine Woche) in einem Gebäude.</translation>
  </message>
  <message>
   <source>A dark stretch to survive beside the usual nights and weekends.</source>
   <translation>Eine Dunkelphase, die neben den üblichen Nächten und Wochenenden zu überstehen ist.</translation>
  </message>
  <message>
   <source>0; 4 d for a long weekend, 10 to 14 d for works holidays.</source>
   <translation>0; 4 d für ein langes Wochenende, 10 bis 14 d für Betriebsferien.</translation>
  </message>
  <message>
   <source>0.99; 1 where none may be missed.</source>
   <translation>0,99; 1, wo keiner ausfallen darf.</translation>
  </message>
  <message>
   <source>How many times the device must do its work from a full store in the dark, the reserve kept. All operations together count. Part of Service.</source>
   <translation>Wie oft das Gerät aus vollem Speicher im Dunkeln arbeiten muss, die Notreserve bleibt. Alle Vorgänge zusammen zählen. Teil der Ausführung.</translation>
  </message>
  <message>
   <source>A lock: 20 openings. Empty where nothing of the kind is asked.</source>
   <translation>Ein Schloss: 20 Öffnungen. Leer, wo nichts dergleichen verlangt ist.</translation>
  </message>
  <message>
   <source>How often an hour the device must do its work in a steady light, while it is due: what the light brings must last for it for ever. An operation at an interval never does more than its interval. Part of Service.</source>
   <translation>Wie oft in der Stunde das Gerät bei gleichmäßigem Licht arbeiten muss, solange Arbeit ansteht: Was das Licht bringt, muss dafür auf Dauer reichen. Ein Vorgang mit festem Abstand tut nie mehr als sein Abstand. Teil der Ausführung.</translation>
  </message>
  <message>
   <source>A lock in use: 10 to 30 an hour. Empty where nothing of the kind is asked.</source>
   <translation>Ein benutztes Schloss: 10 bis 30 je Stunde. Leer, wo nichts dergleichen verlangt ist.</translation>
  </message>
  <message>
   <source>The steady light in which the rate must be reached, of the kind of light of the place. Empty: its illuminance.</source>
   <translation>Das gleichmäßige Licht, bei dem die Häufigkeit zu erreichen ist, von der Lichtart des Ortes. Leer: dessen Beleuchtungsstärke.</translation>
  </message>
  <message>
   <source>Near a window 1300 lx, four times as much in good daylight.</source>
   <translation>Am Fenster 1300 lx, bei gutem Tageslicht das Vierfache.</translation>
  </message>
  <message>
   <source>On a lux meter, where it is to be.</source>
   <translation>Auf einem Luxmeter, dort, wo es sein soll.</translation>
  </message>
  <message>
   <source>How long an empty store may take to become full in a steady light while the device is off: left on a sill before it is hung up. Part of Service.</source>
   <translation>Wie lange ein leerer Speicher bei gleichmäßigem Licht und ausgeschaltetem Gerät zum Füllen brauchen darf: auf dem Fensterbrett, ehe es aufgehängt wird. Teil der Ausführung.</translation>
  </message>
  <message>
   <source>An hour. Empty where nothing of the kind is asked.</source>
   <translation>Eine Stunde. Leer, wo nichts dergleichen verlangt ist.</translation>
  </message>
  <message>
   <source>The steady light in which it must fill in time, of the kind of light of the place. Empty: its illuminance.</source>
   <translation>Das gleichmäßige Licht, bei dem rechtzeitig gefüllt sein muss, von der Lichtart des Ortes. Leer: dessen Beleuchtungsstärke.</translation>
  </message>
  <message>
   <source>Near a window 1300 lx.</source>
   <translation>Am Fenster 1300 lx.</translation>
  </message>
  <message>
   <source>How long a full store must carry the device without any light, the reserve kept. A closure is another thing: it begins with what the store holds in its worst evening. Part of Service.</source>
   <translation>Wie lange ein voller Speicher das Gerät ganz ohne Licht tragen muss, die Notreserve bleibt. Eine Schließzeit ist etwas anderes: Sie beginnt mit dem, was der Speicher am ungünstigsten Abend hält. Teil der Ausführung.</translation>
  </message>
  <message>
   <source>Two weeks of holidays. Empty where nothing of the kind is asked.</source>
   <translation>Zwei Wochen Ferien. Leer, wo nichts dergleichen verlangt ist.</translation>
  </message>
  <message>
   <source>How long the store must last until it counts as worn out, held at its full voltage at the temperature of the place; of a year of daylight by what it goes through. Part of Service.</source>
   <translation>Wie lange der Speicher halten muss, bis er als verbraucht gilt, bei seiner Ladeschlussspannung und der Temperatur des Ortes; bei einem Jahr Tageslicht nach dem, was er durchmacht. Teil der Ausführung.</translation>
  </message>
  <message>
   <source>10 years. Empty where nothing of the kind is asked.</source>
   <translation>10 Jahre. Leer, wo nichts dergleichen verlangt ist.</translation>
  </message>
  <message>
   <source>Brightest light that the panel may ever meet, such as when it is carried outdoors. Voltage and current are checked against it.</source>
   <translation>Hellstes Licht, dem das Modul je begegnen kann, etwa wenn es ins Freie getragen wird. Spannung und Strom werden dagegen geprüft.</translation>
  </message>
  <message>
   <source>100 000 lx; 10 000 lx where the sun cannot reach it.</source>
   <translation>100 000 lx; 10 000 lx, wo die Sonne nicht hinkommt.</translation>
  </message>
  <message>
   <source>A lux meter in the brightest place.</source>
   <translation>Ein Luxmeter am hellsten Ort.</translation>
  </message>
  <message>
   <source>Source: 1000 W/m² of sunlight is 109 to 122 klx (ASTM G173-03; doi 10.21595/jme.2020.21667).</source>
   <translation>Quelle: 1000 W/m² Sonnenlicht sind 109 bis 122 klx (ASTM G173-03; doi 10.21595/jme.2020.21667).</translation>
  </message>
  <message>
   <source>Power that the panel gives to the converter in this row.</source>
   <translation>Leistung, die das Modul in dieser Zeile dem Wandler gibt.</translation>
  </message>
  <message>
   <source>10 µW, 100 µW, 1 mW, 10 mW.</source>
   <translation>10 µW, 100 µW, 1 mW, 10 mW.</translation>
  </message>
  <message>
   <source>The horizontal axis of the efficiency curve; input current times input voltage where it shows the current.</source>
   <translation>Die waagrechte Achse der Wirkungsgradkurve; Eingangsstrom mal Eingangsspannung, wo sie den Strom zeigt.</translation>
  </message>
  <message>
   <source>Share of the input power that arrives at the store in this row. Rows stand for efficiency, fixed loss and loss resistance.</source>
   <translation>Anteil der Eingangsleistung, der in dieser Zeile am Speicher ankommt. Die Zeilen ersetzen Wirkungsgrad, festen Verlust und Verlustwiderstand.</translation>
  </message>
  <message>
   <source>0.5 to 0.75 at 10 µW, 0.75 to 0.92 at 1 mW.</source>
   <translation>0,5 bis 0,75 bei 10 µW, 0,75 bis 0,92 bei 1 mW.</translation>
  </message>
  <message>
   <source>The vertical axis of the efficiency curve.</source>
   <translation>Die senkrechte Achse der Wirkungsgradkurve.</translation>
  </message>
  <message>
   <source>From memory: small harvesting converters; no open curve was found.</source>
   <translation>Aus dem Gedächtnis: kleine Wandler für Solarmodule; keine offene Kurve gefunden.</translation>
  </message>
  <message>
   <source>Store voltage of this row, where the sheet draws a curve for each output voltage; then it stands in every row.</source>
   <translation>Speicherspannung dieser Zeile, wo das Blatt für jede Ausgangsspannung eine Kurve zeichnet; dann steht sie in jeder Zeile.</translation>
  </message>
  <message>
   <source>Left empty, or 1.8, 3 and 4.2 V.</source>
   <translation>Leer oder 1,8, 3 und 4,2 V.</translation>
  </message>
  <message>
   <source>Legend of the efficiency curves.</source>
   <translation>Legende der Wirkungsgradkurven.</translation>
  </message>
  <message>
   <source>Title of the part of one's own that was taken.</source>
   <translation>Name des übernommenen eigenen Bauteils.</translation>
  </message>
  <message>
   <source>The maker's name for it.</source>
   <translation>Die Bezeichnung des Herstellers.</translation>
  </message>
  <message>
   <source>On the shelf of parts.</source>
   <translation>Im Regal der Bauteile.</translation>
  </message>
  <message>
   <source>By definition: written when a part is taken.</source>
   <translation>Festlegung: geschrieben, wenn ein Bauteil übernommen wird.</translation>
  </message>
  <message>
   <source>Where the values of that part come from.</source>
   <translation>Woher die Werte dieses Bauteils stammen.</translation>
  </message>
  <message>
   <source>A data sheet with its date, or a measurement.</source>
   <translation>Ein Datenblatt mit Datum oder eine Messung.</translation>
  </message>
  <message>
   <source>In the part's file.</source>
   <translation>In der Datei des Bauteils.</translation>
  </message>
  <message>
   <source>What one of that part costs, for what changes of its number cost.</source>
   <translation>Was ein solches Bauteil kostet, für das, was Änderungen seiner Zahl kosten.</translation>
  </message>
  <message>
   <source>As in the part's file.</source>
   <translation>Wie in der Datei des Bauteils.</translation>
  </message>
  <message>
   <source>The currency of that price.</source>
   <translation>Die Währung dieses Preises.</translation>
  </message>
  <message>
   <source>EUR.</source>
   <translation>EUR.</translation>
  </message>
  <message>
   <source>Tells whether the values were changed after the part was taken.</source>
   <translation>Zeigt, ob die Werte nach der Übernahme geändert wurden.</translation>
  </message>
  <message>
   <source>Twelve letters and digits.</source>
   <translation>Zwölf Buchstaben und Ziffern.</translation>
  </message>
  <message>
   <source>Nowhere; the program makes it.</source>
   <translation>Nirgends; das Programm bildet ihn.</translation>
  </message>
  <message>
   <source>Which value of the part was measured.</source>
   <translation>Welcher Wert des Bauteils gemessen wurde.</translation>
  </message>
  <message>
   <source>capacitance_F, esr_ohm or leakage_A.</source>
   <translation>capacitance_F, esr_ohm oder leakage_A.</translation>
  </message>
  <message>
   <source>In the part's file; the drawer of logged runs writes it.</source>
   <translation>In der Datei des Bauteils; die Schublade der Messläufe schreibt sie.</translation>
  </message>
  <message>
   <source>By definition: written when fitted values are kept as a part.</source>
   <translation>Per Definition: geschrieben, wenn angepasste Werte als Bauteil behalten werden.</translation>
  </message>
  <message>
   <source>What was found; while the design has this value, the ± beside it counts in place of the usual tolerance.</source>
   <translation>Was gefunden wurde; solange der Entwurf diesen Wert hat, gilt das ± daneben anstelle der üblichen Toleranz.</translation>
  </message>
  <message>
   <source>Near what is printed on the part.</source>
   <translation>Nahe an dem, was auf dem Bauteil steht.</translation>
  </message>
  <message>
   <source>How far the true value may lie from it, in 95 of 100 cases.</source>
   <translation>Wie weit der wahre Wert davon liegen kann, in 95 von 100 Fällen.</translation>
  </message>
  <message>
   <source>2 % of a capacitance after a discharge by a known current.</source>
   <translation>2 % einer Kapazität nach einer Entladung mit bekanntem Strom.</translation>
  </message>
  <message>
   <source>By definition: the ± of the fit, see the model note.</source>
   <translation>Per Definition: das ± der Anpassung, siehe Modellnotiz.</translation>
  </message>
  <message>
   <source>Starts</source>
   <translation>Start</translation>
  </message>
  <message>
   <source>From an empty store: does the light lift it to the connect voltage, does the device get through its start-up, and soon enough? “Never” is an answer.</source>
   <translation>Vom leeren Speicher aus: Hebt das Licht ihn auf die Einschaltspannung, kommt das Gerät durch seinen Anlauf, und das früh genug? „Nie“ ist auch eine Antwort.</translation>
  </message>
  <message>
   <source>Over the repeating week: does the light bring at least the energy that device, leakage and charger take?</source>
   <translation>Über die wiederkehrende Woche: Bringt das Licht mindestens die Energie, die Gerät, Leckstrom und Laderegler brauchen?</translation>
  </message>
  <message>
   <source>At the worst moment of the week, and through the declared closure: does the store last until the light comes back, with the reserve untouched?</source>
   <translation>Im ungünstigsten Augenblick der Woche und über die angegebene Schließzeit: Reicht der Speicher, bis das Licht wiederkommt, ohne die Notreserve anzugreifen?</translation>
  </message>
  <message>
   <source>In the deepest pulse at the lowest store voltage: do the terminals stay above what the device needs? The droop is a step over the series resistance and a ramp of the store itself.</source>
   <translation>Im tiefsten Puls bei der niedrigsten Speicherspannung: Bleiben die Klemmen über dem, was das Gerät braucht? Der Einbruch ist ein Sprung am Serienwiderstand und eine Rampe des Speichers selbst.</translation>
  </message>
  <message>
   <source>Ratings</source>
   <translation>Grenzwerte</translation>
  </message>
  <message>
   <source>Do volts per unit, currents and temperature stay within what the parts are made for, also with the panel left in full sun?</source>
   <translation>Bleiben Volt je Einheit, Ströme und Temperatur innerhalb dessen, wofür die Bauteile gemacht sind, auch mit dem Modul in voller Sonne?</translation>
  </message>
  <message>
   <source>Service</source>
   <translation>Ausführung</translation>
  </message>
  <message>
   <source>How many of the wanted runs of each operation are really done?</source>
   <translation>Wie viele der gewünschten Durchläufe jedes Vorgangs werden wirklich ausgeführt?</translation>
  </message>
  <message>
   <source>Available over needed. 1 is just enough; the required margin is what counts as Runs. Marginal: all checks pass, some with less than the margin. Falls short: any check fails.</source>
   <translation>Vorhandenes durch Nötiges. 1 reicht gerade; der verlangte Sicherheitsfaktor zählt als Läuft. Knapp: Alle Prüfungen sind bestanden, einige mit weniger als dem Verlangten. Reicht nicht: Eine Prüfung schlägt fehl.</translation>
  </message>
  <message>
   <source>Break-even</source>
   <translation>Wo das Urteil wechselt</translation>
  </message>
  <message>
   <source>The value of a knob at which the verdict changes, everything else as it is. It stands below each slider, and the part of its track where the design runs is drawn thick.</source>
   <translation>Der Wert eines Reglers, bei dem sich das Urteil ändert, alles andere unverändert. Er steht unter jedem Schieber, und der Teil der Bahn, auf dem der Entwurf läuft, ist dick gezeichnet.</translation>
  </message>
  <message>
   <source>Generic kinds of store, no maker's part</source>
   <translation>Allgemeine Speicherarten, kein Teil eines Herstellers</translation>
  </message>
  <message>
   <source>Aluminium electrolytic capacitor</source>
   <translation>Aluminium-Elektrolytkondensator</translation>
  </message>
  <message>
   <source>Ceramic capacitor bank</source>
   <translation>Keramikkondensatorbank</translation>
  </message>
  <message>
   <source>Long-life electrolytic capacitor</source>
   <translation>Elektrolytkondensator, langlebig</translation>
  </message>
  <message>
   <source>Coin-type backup supercapacitor</source>
   <translation>Backup-Superkondensator (Knopfform)</translation>
  </message>
  <message>
   <source>Two supercapacitors in series</source>
   <translation>2 Superkondensatoren in Reihe</translation>
  </message>
  <message>
   <source>Flat power supercapacitor pair</source>
   <translation>Superkondensatorpaar, flach</translation>
  </message>
  <message>
   <source>Hybrid (lithium-ion) capacitor</source>
   <translation>Hybridkondensator (Lithium-Ionen)</translation>
  </message>
  <message>
   <source>Lithium-ion pouch cell</source>
   <translation>Lithium-Ionen-Pouchzelle</translation>
  </message>
  <message>
   <source>Lithium-ion coin cell</source>
   <translation>Lithium-Ionen-Knopfzelle</translation>
  </message>
  <message>
   <source>Lithium iron phosphate cell</source>
   <translation>Lithium-Eisenphosphat-Zelle</translation>
  </message>
  <message>
   <source>Lithium titanate cell</source>
   <translation>Lithiumtitanat-Zelle</translation>
  </message>
  <message>
   <source>EN 12464-1:2021, as quoted by lighting makers' tables</source>
   <translation>EN 12464-1:2021, zitiert nach Tabellen von Leuchtenherstellern</translation>
  </message>
  <message>
   <source>EN 12464-1, 300 lx quoted by lighting makers' tables, edition not stated</source>
   <translation>EN 12464-1, 300 lx zitiert nach Tabellen von Leuchtenherstellern, Ausgabe nicht genannt</translation>
  </message>
  <message>
   <source>EN 12464-1 as quoted by lighting makers, edition not stated</source>
   <translation>EN 12464-1, zitiert nach Leuchtenherstellern, Ausgabe nicht genannt</translation>
  </message>
  <message>
   <source>EN 12464-1, from memory</source>
   <translation>EN 12464-1, aus dem Gedächtnis</translation>
  </message>
  <message>
   <source>common practice, no source</source>
   <translation>übliche Praxis, ohne Quelle</translation>
  </message>
 </context>
</TS>
