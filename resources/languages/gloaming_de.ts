<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
 <context>
  <name>gloaming</name>
  <message>
   <source>never</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>unknown</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Name</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What the device does in this phase.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Current</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Constant current that the device draws.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Power</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Constant power that the device draws.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Resistance</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Resistance that the device connects.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Duration</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Length of the phase.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Interval</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>From one start to the next.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Days</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Days on which it is due.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>From</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Window opens.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>To</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Window closes.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Ready at</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Store voltage that starts it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Wanted per day</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Runs a day that the design should reach.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What it does.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Schedule</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>When it runs.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Phases</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What it draws, one after another.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Regulator</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>None, a linear regulator or a switching one.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Output voltage</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>At the device.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Drop-out</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Least voltage across a linear regulator.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Own current</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Ground or quiescent current of the regulator.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Efficiency</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Of a switching regulator.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Minimum input</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Least input of a switching regulator.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Connects at</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Rising store voltage at which the device is connected.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Disconnects at</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Falling voltage at which it is cut off.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Device minimum</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Least terminal voltage at which the device works.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Retry delay</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Least time from a cut-off to the next connect.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Between store and device.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Bulk capacitance</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>On the device's side; filled at every connect.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Start-up</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What the device draws after every connect, before its first operation.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Sleep current</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Of the device between operations.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Operations</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What the device does.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Moves</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What the device moves, if anything; brings up the cautions that apply.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Reserve</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Energy kept for one last safe action, such as closing a valve.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Weekdays on which this block is lit.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Hour of the day when the light comes on.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Hour of the day when the light goes off.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Relative level</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Level of this block as a multiple of the illuminance.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Daylight share</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the lux that is daylight behind glass in this block. Empty: as for the place.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Lit blocks</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Hours with light.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Dark days</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Weekdays on which the place stays dark whatever the blocks say.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Log file</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>CSV with columns time and lux: a name in resources/logs or a path beside the scenario.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Gaps</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Hours without a reading count as dark, or hold the last reading.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Light level</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Illuminance at the panel's place while it is lit, read with a lux meter that faces as the panel faces. With a measured log: its mean while lit; empty means as measured.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Light source</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A lux meter reads what the eye sees; the source decides what a panel makes of it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the lux that is daylight behind glass.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Hours</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>When the place is lit.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Orientation factor</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Light on the panel's face over light read by the meter; 1 when the meter faces the same way. A wall often gets a third of what the desk gets.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cover factor</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the light that a window or lens lets through.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Soiling factor</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the light left by dust on the panel.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Light known by</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>How the level was found; sets the design margin.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Temperature</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Air temperature at panel and store.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Design margin</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Available over needed that counts as Runs. Empty: by how the light is known.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Start within</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Longest time from empty to the first operation.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Longest closure</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Dark stretch to survive beside the usual nights.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Operations served</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the wanted operations that must be served.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Left in the sun</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Brightest light that the panel may meet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Title</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Name of the scenario.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Place</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Where the device hangs.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Light</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Light at the place.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Panels</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>The panel array.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charger</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>From panel to store.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Store</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What holds the energy.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Load</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>The device.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Margins</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What must be reached.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Notes</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Anything the next reader should know.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Storage capacitance</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Of the whole bank, as rated.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Units in series</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Units that share the bank's voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Rated voltage per unit</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Largest voltage that one unit may see.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Series resistance (ESR)</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Of the whole bank at room temperature, new.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Leakage, settled</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>At rated voltage, days after the first charge.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacitance tolerance</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Spread of one unit around its rating (share).</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Years in service</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Age for which the bank is judged.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Rated life</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Hours to end of life at rated voltage and temperature.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Rated temperature</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Highest working temperature of a unit.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacitance lost at end of life</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of capacitance whose loss counts as the end; makers use 0.2 or 0.3.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>ESR rise at end of life</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Relative rise of series resistance that counts as the end; 1 means twice the new value.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Life gained per 0.1 V below rating</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Factor on life for every 0.1 V that a unit stays below its rated voltage; 1: no effect.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>ESR in the cold</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Series resistance at -20 °C over that at 20 °C.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage at the beginning</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Of the bank when the trace begins.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Lowest voltage per unit</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage below which one unit must not fall; above 0 for hybrid (lithium-ion) capacitors, which then count as empty there.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacitance slope</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Relative rise of capacitance from 0.6 of rated voltage to 1.6 of it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacitance bend</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Curvature that lowers capacitance at low voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Leakage counted</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Settled, or the mean of the first three days after the first charge.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Leakage when fresh</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Leakage in the first hours over the settled leakage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Leakage settles in</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Time constant of the fall of leakage; after three of them little is left of it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Balancing</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What keeps series units at equal voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Balancing current</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Taken by the balancing at rated voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Chemistry</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Sets the open-circuit voltage and the voltage window.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacity</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Rated, of the cell.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cells in series</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cells in the store.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Of the whole store at room temperature, new.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Self-discharge</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the capacity lost in a month.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charging current limit</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Largest current into the cell.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Discharge current limit</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Largest current out of the cell.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charge above</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>No charging at or below this temperature.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charge below</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>No charging above this temperature.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cool below</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Below this temperature charging is slowed down.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charging when cool</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the charging limit that is left when cool.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacity in the cold</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacity at -20 °C over that at 20 °C.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Resistance in the cold</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Resistance at -20 °C over that at 20 °C.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Full cycles to end of life</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Full cycles until 80 % is left.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Full cycles a year</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charge taken in a year over the capacity.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Calendar fade</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the capacity lost in a year at rest at 25 °C; more when warmer.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Age for which the cell is judged.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charge at the beginning</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>State of charge when the trace begins.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Illuminance of this data-sheet line.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Lamp that the data sheet used.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Short-circuit current</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Current at zero volts.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Open-circuit voltage</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage at zero current.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Current at maximum power</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Current where V·I is largest.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage at maximum power</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage where V·I is largest.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Panels in parallel.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Panels in series</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Panels in one string.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cell technology</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Decides the response to each light source.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Active area</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Light-taking area of one whole panel.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cells in one panel; they share its area equally.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Data-sheet points</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>One to three light levels; when given they set the I-V curve.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Diode saturation current</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Of the blocking diode; it also leaks this much back at night.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Diode ideality</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Of the blocking diode, 1.0 to 1.3 for Schottky.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Full at</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Store voltage at which charging stops.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Full hysteresis</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charging resumes this far below full.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Quiescent current</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Drawn from the store at all times by the charger.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Panel held at</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A fixed fraction of open-circuit voltage, or maximum power.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Fraction of open-circuit voltage</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Panel voltage over its V_oc.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the panel power left after proportional loss.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Fixed loss</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Power lost whenever the converter runs.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Loss resistance</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Resistance in the output path of the converter.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Output limit</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Largest charging current.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Minimum panel voltage</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Below this working voltage it stops.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Minimum panel power</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Below this panel power it stops.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cold start below</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Below this store voltage only the cold start works.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cold-start efficiency</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Efficiency while the store is that low.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cold-start panel voltage</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Open-circuit voltage that a cold start needs.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cold-start panel power</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Panel power that a cold start needs.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>The name of the scenario, shown at the head of the window and of every report.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A device and its job, such as “Soil probe, bench 4”.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>You choose it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>By definition.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Where the device hangs. A note for the reader; nothing is computed from it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A room, a wall, a height.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Anything the next reader should know: who measured what, when, and what was assumed.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A few lines.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>You write it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>How brightly the place is lit while the light is on. It is the light that the panel sees that counts, so hold the meter where the panel will hang and turn it as the panel will face.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Corridor 100 lx, stairs 150 lx, desk 500 lx, all lighting design values on the work surface; a wall often gets a third. Bright workplace near a window about 1300 lx.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>On a lux meter. A telephone is no measuring instrument; its reading may be off by half.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: EN 12464-1:2021 as quoted in lighting makers' tables; the window value and the third on the wall are common practice, no source.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>The kind of lamp. A lux meter weighs light as the eye does; a cell weighs it otherwise, so the same lux from another lamp gives another current.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Offices: LED 4000 K. Homes: LED 2700 or 3000 K. By a window: daylight behind glass.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>On the lamp or its box, as the colour temperature in kelvin.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: CIE 015:2018 illuminants, ASTM G173-03; which lamp is used where is common practice, no source.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the lux that is daylight through the window rather than lamp light.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0 in a corridor, 0.3 to 0.5 at a desk near a window, 1 by a window with the lamps off.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Measure with the lamps off and on; daylight alone over both is the share.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Common practice, no source.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Light on the panel's face over the light that the meter read. Leave it at 1 when the meter faced as the panel does.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.3 for a panel on the wall when the desk was measured; 0.1 to 0.2 facing down.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Two readings: one as the panel faces, one as the level was measured.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the light that passes a window, lens or housing in front of the panel.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Clear acrylic or glass 0.9, frosted cover 0.7 to 0.8, tinted 0.5.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Meter reading behind the cover over the reading without it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the light left by dust and grease on the panel.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.95 in an office, 0.7 to 0.9 in a workshop between cleanings.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Current of the dusty panel over that of the cleaned one.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>How the light level was found. The less sure it is, the more margin is asked for: 1.3 with a lux meter at the panel, 1.6 with a telephone or lamp data, 2.0 for a guess.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A lux meter at the panel.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>You know it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Own judgement; that telephones and many lux meters err by more than 10 % was measured: Energies 15(16) 5847.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Air temperature at panel and store. It moves the panel's voltage, the store's resistance and life, and decides whether a lithium cell may be charged.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>18 to 25 °C indoors, 5 to 40 °C in a glasshouse, 40 °C and more behind a sunlit pane.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A thermometer beside the device; take the hardest season.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>When there is light: at every hour the same, a week of lit hours that repeats, or a measured log.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A week of lit hours for most rooms.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Ask who switches the lights; or log the light for a week.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Saturday and Sunday in an office.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Ask when the building is shut.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A table of measured light with columns time and lux, played again and again.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>One reading a minute for a week or more.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>From a light logger; a name in the program's logs or a path beside the scenario.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What stands in for hours without a reading.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Count as dark: the cautious choice.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Own judgement.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Weekdays on which this block of hours is lit.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Monday to Friday in an office, all days at a window.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Ask who switches the lights.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>7 to 9 h.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Ask, or look at a log. With motion sensors count only the time that the lamps really burn.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Hour of the day when the light goes off. A block that passes midnight is entered as two.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>17 to 19 h in an office.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Ask, or look at a log.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Level of this block as a multiple of the light level, for hours that are brighter or dimmer.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.1 to 0.3 for lamps dimmed at night, 0.5 for a winter morning by the window.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Reading in this block over the reading of the main block.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of daylight in this block alone. Empty: as for the whole place.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1 before the lamps go on.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Measure with the lamps off and on.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>How many panels work side by side. Their currents add.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1 to 4.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>How many panels form one string. Their voltages add; the dimmest one limits the string.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1 with a converter; 2 where a diode must reach a higher store voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What the cells are made of. It decides how much of each lamp's light they use and how well they work in dim light.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Amorphous silicon for lamps; crystalline where there is daylight.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>First lines of the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: the response of crystalline cells is pvlib's (doi 10.2172/1814068); all other responses are modelled or from memory.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Area that takes light, of one whole panel, without frame and contacts.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>2 to 60 cm². An amorphous panel gives some 4 to 6 µW/cm² at 200 lx of white light.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>“Active area” or “aperture” on the data sheet, else measure the dark part with a ruler.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>From memory; the model lies among published measurements of 3 to 7 µW/cm².</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>How many cells share the panel's area; each adds its voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>4 to 8 for amorphous indoor panels, 6 to 10 for small crystalline ones.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Count the lines across the panel, or open-circuit voltage over 0.5 to 0.8 V.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Light level at which this line of the data sheet was measured.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>50, 200 or 1000 lx.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Head of the indoor table of the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>From memory.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Lamp under which this line was measured.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Fluorescent on older sheets, LED on newer ones.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Small print below the indoor table.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Current into a short circuit at this light level.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Some 0.045 µA per lux were measured on one small amorphous panel: 9 µA at 200 lx.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Isc on the data sheet, or an ammeter across the panel.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: measured medians of 0.043 to 0.048 µA/lx at eight places, Bader et al., IEEE Sensors 2020.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage of the panel with nothing connected.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.5 to 0.8 V a cell indoors.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voc on the data sheet, or a voltmeter of 10 MΩ or more.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Current where voltage times current is largest.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.75 to 0.9 of the short-circuit current.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Imp or Iope on the data sheet. An operating point that is not the maximum makes the panel look weaker.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage where voltage times current is largest.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.7 to 0.85 of the open-circuit voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Vmp or Vope on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: 0.77 to 0.87 computed for single-diode panels with pvlib; panels with a weak shunt fall to 0.5.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What stands between panel and store: a blocking diode, or a switching converter that holds the panel at its best voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A diode for the smallest devices, a converter where the store's voltage and the panel's differ.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Your circuit.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>How the converter finds the panel's working voltage: a set fraction of the open-circuit voltage, or the true maximum of power.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A fraction: it is what most small harvesting converters do.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Data sheet of the converter, under MPPT.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Panel voltage that the converter holds, over the open-circuit voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.75 to 0.85; data sheets let you set 0.35 to 0.9.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>MPPT ratio on the converter's data sheet, or its resistor divider.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: ranges of harvesting converters' data sheets.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the panel's power that arrives, before fixed and resistive losses.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.7 to 0.9; less at microwatts.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Efficiency curves on the converter's data sheet, at your input power.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Power that is lost whenever the converter runs, however little light there is.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.5 to 3 µW.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Quiescent current in operation times its voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Resistance in the converter's output path; it counts at large currents.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.2 to 2 Ω.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Resistance of switch and coil on their data sheets.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Largest current that the charger gives.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>50 to 200 mA for harvesting converters.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Peak or charge current on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Panel voltage below which a running converter stops.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.05 to 0.15 V.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Minimum input voltage after start-up.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: data sheets of harvesting converters, 50 to 100 mV.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Panel power below which a running converter stops.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1 to 5 µW.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Minimum input power on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: data sheets of harvesting converters, 3 to 5 µW.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Store voltage below which only the weak cold-start circuit charges. A slow first charge often comes from here.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1.6 to 1.9 V.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>“Cold start” or “CHGEN threshold” on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Efficiency of the cold-start circuit.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.05 to 0.1.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Rarely given; by a maker's own sizing formula 5 %.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: a harvesting converter's data sheet, sizing formula.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Open-circuit voltage of the panel that a cold start needs.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.25 to 0.7 V.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cold-start voltage on the data sheet; take the largest value, not the typical one.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: data sheets of harvesting converters; revisions of one sheet range from 330 to 600 mV.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>3 to 15 µW.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cold-start power on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: data sheets of harvesting converters, 3 to 5 µW; 15 µW is from memory.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Store voltage at which charging stops. Keep every unit below its rated voltage, with room for tolerance and heat.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>5.0 V for two 2.7 V supercapacitors in series, 4.1 to 4.2 V for one lithium-ion cell.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Overvoltage setting of the charger; rating of the store.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Common practice, no source (a lithium-polymer cell ends charge at 4.2 V).</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>How far the voltage must fall below full before charging resumes.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>20 to 100 mV.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Overvoltage hysteresis on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What the charger itself draws from the store, day and night.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.3 to 0.7 µA for harvesting converters.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Quiescent current from the storage pin, at your temperature.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: data sheets of harvesting converters, 325 to 488 nA typical, 700 nA largest.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Saturation current of the blocking diode. A larger one drops less voltage and leaks more back at night.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>10 to 100 nA for a small Schottky diode.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Not printed: from two points of the forward curve.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: fit to a small Schottky diode's data sheet, 72 nA; extrapolated below 0.1 mA.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>How steeply the diode's current rises with voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1.05 to 1.3 for Schottky diodes, 1.5 to 2 for silicon.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>From two points of the forward curve on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: fit to a small Schottky diode's data sheet, 1.18; the range is from memory.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What holds the energy. Capacitors last and charge fast but hold little; supercapacitors hold hours to days; a lithium cell holds weeks and needs care.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacitor up to 10 mF, supercapacitor 0.1 to 50 F, cell above.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Your parts list. Read the cautions of the kind that you choose.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacitance of the whole bank, as rated. Two equal units in series have half of one.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.1 to 10 F of supercapacitor, 0.1 to 10 mF of electrolytic.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Rated capacitance on the data sheet, times units in parallel, over units in series.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Common practice, no source. Measured units: a 25 F cell gave 27.3 F by IEC 62391-1.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>2 for a 5 V supercapacitor bank, 1 otherwise.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Largest voltage that one unit may see, at its rated temperature.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>2.5 to 3.0 V for supercapacitors, 5.5 V for memory-backup cans, 6.3 V and up for electrolytics.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Rated voltage on the data sheet or the sleeve.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Series resistance of the whole bank, new, at room temperature. Every pulse drops current times this at once, however full the bank is.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>10 to 200 mΩ for power types, 30 to 200 Ω for small memory-backup cans.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>ESR on the data sheet: take the direct-current value, not that at 1 kHz.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: a 330 mF can of 150 Ω in a public forum thread; the rest is common practice, no source.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Current that the bank loses by itself at rated voltage, days after the first charge.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.5 to 2 µA per farad for supercapacitors; electrolytics up to 0.01 × C × V, far less after days.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Leakage after 72 h on the data sheet; the sheet's value is a limit, a good unit is well below.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: electrolytic rule 0.01 CV on data sheets; a measured supercapacitor leaked 1 µA against a limit of 30 µA.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Spread of one unit's capacitance around its rating, as a share. In series the smallest unit takes the most voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Tolerance on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Age for which the design is judged. Capacitance and capacity fall and resistance rises with the years.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0 for the first day; 5 to 10 to be sure at the end.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Hours to end of life at rated voltage and temperature. At room temperature life is far longer.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1000 to 2000 h for supercapacitors, 2000 to 10 000 h for electrolytics.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Endurance on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Highest working temperature of a unit, at which its life is rated.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>65 or 70 °C for supercapacitors, 85 or 105 °C for electrolytics.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Category temperature on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of capacitance whose loss counts as the end of life.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.2 or 0.3.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Endurance conditions on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: makers' life notes, 20 to 30 % loss.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1, up to 3 on some data sheets.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: makers' life notes, +100 %.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Factor on life for every 0.1 V that a unit stays below its rated voltage; 1 means no effect.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1.3 for supercapacitors, 1 for electrolytics.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Life notes of the maker.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: a supercapacitor maker's life note.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Series resistance at −20 °C over that at 20 °C.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1.5 to 2 for supercapacitors, 4 and more for electrolytics.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Curve of ESR against temperature, or the impedance ratio.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage of the bank when the trace begins.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0 V, as unpacked; the full voltage if charged before it is hung up.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A voltmeter.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage below which one unit must not fall. Only hybrid (lithium-ion) capacitors have one.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0 V; 2.2 to 2.5 V for hybrids.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Lower category voltage on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>How much capacitance rises from 0.6 to 1.6 of the rated voltage: charge is the integral of it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.29 fits measured units; 0 for a constant capacitance.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Not printed: from a discharge curve at constant current.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: fit to four measured 25 F and 50 F units, Zenodo 10.5281/zenodo.19221698.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.33 fits measured units; 0 for none.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Which leakage counts: settled, or the mean of the first three days, when a new supercapacitor still takes far more.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Settled; first days to judge the hanging-up.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Leakage in the first hours over the settled one.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>5 to 10.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Curve of leakage against time on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Common practice, no source; sheets give the value after 72 h because it falls that long.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Time constant of the fall of leakage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>24 h: little is left of it after three days.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Common practice, no source; data sheets soak for 72 h.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What keeps units in series at equal voltage: nothing, resistors that always draw, or an active circuit.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Active for harvesting; resistors cost too much.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Current taken by the balancing at rated voltage, all the time.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.05 to 0.5 µA active; resistors about ten times the leakage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Data sheet of the balancing part; with resistors, voltage over resistance.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: a capacitor maker's rule of ten times the leakage for resistors; the active value is common practice, no source.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Kind of lithium cell. It sets the voltage window and how level the voltage stays.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Lithium-ion 3.0 to 4.2 V, iron phosphate 2.0 to 3.6 V, titanate about 2.3 V and fit for the cold.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: open-circuit curves after Ai 2020 and Prada 2013 (PyBaMM); titanate is modelled, from memory.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charge that the cell gives from full to empty, as rated.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>10 to 120 mAh for coin cells, 40 to 2000 mAh for pouches.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacity on the cell or its data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cells that share the store's voltage. Each needs its own watch.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Resistance of the whole store, new, at room temperature. Every pulse drops current times this.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.2 to 2 Ω for 40 mAh.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Internal resistance on the data sheet; the value at 1 kHz is too low for long pulses.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the capacity that is lost in a month without a load, with its protection circuit.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.02 to 0.05 for lithium.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charge retention on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: battery handbook pages, 1 to 3 % a month, 3 % more for a protection circuit.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Half of the capacity in an hour: 20 mA for 40 mAh.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Maximum charge current on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Once or twice the capacity in an hour.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Maximum discharge current on the data sheet; pulses may be allowed more.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>No charging at or below this temperature: metallic lithium would plate out, which cannot be undone.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0 °C; lower only where the data sheet says so.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charging temperature on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: charger register maps after the JEITA profile; no charge below 0 °C.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>45 °C.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: charger register maps after the JEITA profile; 45 to 60 °C at reduced voltage only.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>10 °C.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charging temperature on the data sheet, in steps.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: charger register maps after the JEITA profile, 0 to 10 °C.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the charging limit that is left when the cell is cool.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: charger register maps after the JEITA profile: 0, 20, 40 or 100 %, 20 % by default.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacity at −20 °C over that at 20 °C.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.5 to 0.7 for lithium-ion.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Discharge curves against temperature.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Resistance at −20 °C over that at 20 °C.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>3 to 10 for lithium-ion.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Pulse curves against temperature, where given.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Full cycles until 80 % of the capacity is left.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>300 to 500 for lithium-ion, 2000 for iron phosphate, 10 000 for titanate.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Cycle life on the data sheet, with its depth of discharge.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Charge taken from the cell in a year over its capacity.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>10 to 100 for harvesting: small daily swings add up to few full cycles.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>From the energy budget: weekly draw × 52 over the capacity.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Share of the capacity lost in a year at rest at 25 °C; it is faster when warm and full.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.02 to 0.04.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Storage conditions on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>State of charge when the trace begins, 0 to 1.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.3, as lithium cells are shipped.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>You know it, or from the open-circuit voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Common practice, no source (air transport asks for 30 % at most, from memory).</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Rising store voltage at which the device is connected. Higher means a later but surer start, with more energy for the start-up.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>3.2 to 4.2 V on a 5 V store, 3.5 V on a lithium cell.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Power-good or load-switch threshold.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Falling store voltage at which the device is cut off. The gap to the connect voltage must hold the energy of a start-up, or the device tries for ever.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1.8 to 2.6 V; 3.0 to 3.2 V on a lithium-ion cell.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Undervoltage threshold of load switch or supervisor.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Least voltage at the terminals at which the device still works, also in the dip of a pulse.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1.8 to 2.2 V for microcontrollers, 2.0 to 2.5 V with a radio.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Operating voltage of every part; the highest minimum counts.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.1 to 10 s.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Your supervisor's delay.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Capacitance behind the load switch, filled from the store at every connect.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>10 to 100 µF.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Sum of the capacitors on the device's supply.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What the device draws all the time between its operations. It often takes more in a day than the pulses do.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.5 to 5 µA for a good design; a forgotten pull-up or sensor makes it 50 µA.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Measure it with a microammeter; data sheets give the chips alone.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What the device moves, if anything. It changes no number and brings up the cautions that apply.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>None.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Your device.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Energy kept in the store for one last safe action, such as closing a valve. What is below it does not count as dark reserve.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.6 J for one move of a small latching valve.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage × current × time of the action, over the efficiency on the way.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: public valve pages, 12 V · 1 A · 50 ms.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What stands between store and device: nothing, a linear regulator, or a switching one.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>None where the device takes the store's whole range.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage that the device gets.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1.8, 2.5, 3.0 or 3.3 V.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Least voltage across a linear regulator; below it the output sinks.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.05 to 0.3 V at small currents.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Drop-out voltage on the data sheet at your pulse current.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What the regulator draws for itself at all times.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.03 to 2 µA for parts made for batteries.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Ground or quiescent current, at light load.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Output power over input power of a switching regulator.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.8 to 0.93; lower at microamperes.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Efficiency curves on the data sheet, at your pulse and at your sleep current.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Least input voltage of a switching regulator.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.8 to 2.5 V.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Input range on the data sheet; mind that start-up may need more.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>What the device does in this operation.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>“measure and send”.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>When an operation runs: at a fixed interval, or whenever the store has charged up.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>At a fixed interval.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Your firmware.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Time from one start to the next.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1 min to 1 h. Twice the interval nearly halves the energy of the pulses.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Your firmware; ask what the user really needs.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Days on which the operation is due.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>All days.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Hour of the day from which the operation is due.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0 h.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Hour of the day until which the operation is due.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>24 h.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Store voltage that starts the operation; it waits until the store is charged up to it again.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A little below the full voltage.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Comparator or firmware threshold.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1 to 100.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>“listen”, “send”, “drive the display”.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Constant current that the device draws in this phase, behind the regulator if there is one.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Microcontroller awake 1 to 5 mA, short-range radio 5 to 15 mA, long-range radio 30 to 120 mA.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Supply current on the data sheet of each part, or an oscilloscope across a small resistor.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Constant power that the device draws in this phase.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A photo-acoustic carbon-dioxide sensor some 50 to 80 mW for 5 s; a picture to an e-paper tag 0.37 J by radio and 0.01 J to draw.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Voltage × current on the data sheet.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: sensor data sheets, 0.25 to 0.35 J a reading; a measured e-paper tag, published by who measured it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Resistance that the device connects in this phase, such as a heater or a coil.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>12 Ω for a small 12 V latching coil.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>An ohmmeter.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: public valve pages, 12 V · 1 A.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Sensor 20 to 100 ms; short-range radio 5 ms; long-range radio 41 ms to 1 s.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Time it with an oscilloscope; count retries and waiting for an answer.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: LoRa time-on-air formula, 10 bytes: 41 ms (SF7) to 991 ms (SF12); the rest is common practice, no source.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Available over needed that counts as Runs. Empty: it follows from how the light is known.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>1.3 with a lux meter at the panel, 1.6 with a telephone or lamp data, 2.0 for a guess.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Longest time from an empty store to the first operation.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>2 h at a demonstration, 168 h (a week) in a building.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A dark stretch to survive beside the usual nights and weekends.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0; 4 d for a long weekend, 10 to 14 d for works holidays.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>0.99; 1 where none may be missed.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Brightest light that the panel may ever meet, such as when it is carried outdoors. Voltage and current are checked against it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>100 000 lx; 10 000 lx where the sun cannot reach it.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>A lux meter in the brightest place.</source>
   <translation type="unfinished" />
  </message>
  <message>
   <source>Source: 1000 W/m² of sunlight is 109 to 122 klx (ASTM G173-03; doi 10.21595/jme.2020.21667).</source>
   <translation type="unfinished" />
  </message>
 </context>
</TS>
