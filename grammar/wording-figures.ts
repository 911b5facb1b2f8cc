/** The words by which a number short of its unit, or a unit short of its number, is told; as data. */

/** Say how much as a figure does: "twice as fast", "more than half". */
export const FIGURE_WORDS: ReadonlySet<string> = new Set(words('half twice thrice double triple'));

/** Nouns for what is measured in a unit, so that a bare number behind them is short of one. */
export const MEASURED_NOUNS: ReadonlySet<string> = new Set(
  words('temperature voltage current power energy weight mass length width height depth thickness distance')
    .flatMap((noun) => [noun, `${noun}s`])
    .concat(
      words('diameter diameters radius pressure pressures force forces torque torques humidity frequency frequencies'),
      words('duration durations time delay delays latency latencies period periods speed speeds velocity altitude'),
      words('capacitance inductance resistance impedance price cost'),
    ),
);

/** Stand between a measured noun and its number: "the supply voltage shall be set to 5". */
export const MEASURE_LINKS: ReadonlySet<string> = new Set(
  words('be of is are a an the to set rated held kept limited between from and up than not no'),
);

/** Behind a number or a unit these begin something else, so that it stands alone. */
export const AFTER_FIGURE: ReadonlySet<string> = new Set(
  words(
    'and or but when while if where unless until at for in on with to from during under over of per by the a an it',
  ),
);

function words(list: string): readonly string[] {
  return list.split(' ');
}
