// The sums of builder/mechanics, which is the reference: formulas, units, signs,
// sources and limits stand there. Lengths in mm, masses in kg, angles in
// degrees, slopes as rise over run; NaN where an input makes no sense. A Go test
// runs both over the same inputs, so keep the order of the operations.

type Sum = (...n: number[]) => number;

const LONG = 0.74;
const SHORT = 0.6;
const SIZE_SPREAD = 1;
const FOOT_SPREAD = 10;
const UK = 25;
const US_MEN = 24;
const US_WOMEN = 22.5;
const US_WOMEN_OTHER = 23;

const degrees = (radians: number): number => (radians * 180) / Math.PI;
const radians = (angle: number): number => (angle * Math.PI) / 180;
const notBelow0 = (guard: number, x: number): number => (guard >= 0 ? x : NaN);
const above0 = (guard: number, x: number): number => (guard > 0 ? x : NaN);

const share = (of: number) => (length: number) => notBelow0(length, of * length);
const tilt = (change: number, lever: number): number => above0(lever, degrees(Math.atan(change / lever)));
const angle = (slope: number): number => degrees(Math.atan(slope));
const run = (rise: number, slope: number): number => (slope === 0 ? NaN : rise / slope);
const oneIn = (n: number): number => run(1, n);
const footSize = (inside: number): number => notBelow0(inside, 10 * Math.floor(inside / 10));

const euSize = (foot: number): number => notBelow0(foot, ((foot + (2 * 20) / 3) * 3) / 20);
const inchSize = (zero: number) => (foot: number) => notBelow0(foot, (foot * 3) / 25.4 + 2 - zero);
const positive = (mm: number): number => notBelow0(mm, mm);
const euFoot = (size: number): number => positive(((size - 2) * 20) / 3);
const inchFoot = (zero: number) => (size: number) => positive(((size + zero - 2) * 25.4) / 3);

/** Every function by the name that formulas use. builder/formula has the same table. */
export const functions: { [name: string]: Sum } = {
  effective_heel: (heel: number, ball: number) => notBelow0(Math.min(heel, ball), heel - ball),
  heel_change: (now: number, setUp: number) => now - setUp,
  long_lever: share(LONG),
  short_lever: share(SHORT),
  tilt,
  least_tilt: (change: number, foot: number) => tilt(change, share(LONG)(foot)),
  most_tilt: (change: number, foot: number) => tilt(change, share(SHORT)(foot)),
  knee_shift: (tilted: number, knee: number) => notBelow0(knee, knee * Math.sin(radians(tilted))),
  heel_wedge: (change: number) => Math.max(0, -change),
  ball_wedge: (change: number) => Math.max(0, change),

  slope_percent: (slope: number) => 100 * slope,
  percent_slope: (percent: number) => percent / 100,
  slope_angle: angle,
  angle_slope: (a: number) => (Math.abs(a) < 90 ? Math.tan(radians(a)) : NaN),
  sine: (a: number) => Math.sin(radians(a)),
  slope_n: oneIn,
  one_in: oneIn,
  ankle_needed: angle,
  heel_felt: (slope: number, lever: number) => above0(lever, -slope * lever),
  slope_of: (rise: number, over: number) => above0(over, rise / over),
  ramp_rise: (slope: number, over: number) => notBelow0(over, slope * over),
  ramp_run: (rise: number, slope: number) => notBelow0(rise * slope, run(rise, slope)),

  ball_length: share(LONG),
  foot_from_stature: share(0.153),
  foot_size: footSize,
  foot_size_pointed: (inside: number) => positive(footSize(inside) - 10),
  load: (...masses: number[]) => masses.reduce((sum, m) => notBelow0(m, sum + m), 0),

  ankle_foot_radius: share(0.22),
  knee_ankle_foot_radius: share(0.17),
};

/** Adds an estimate and the two ends of its spread. */
function range(name: string, spread: number, usual: Sum, low: Sum = usual, high: Sum = usual): void {
  functions[name + "_low"] = (x = NaN) => low(x) - spread;
  functions[name] = usual;
  functions[name + "_high"] = (x = NaN) => high(x) + spread;
}

range("shoe_eu", SIZE_SPREAD, euSize);
range("shoe_uk", SIZE_SPREAD, inchSize(UK));
range("shoe_us_men", SIZE_SPREAD, inchSize(US_MEN));
range("shoe_us_women", SIZE_SPREAD, inchSize(US_WOMEN), inchSize(US_WOMEN_OTHER));
range("foot_eu", FOOT_SPREAD, euFoot);
range("foot_uk", FOOT_SPREAD, inchFoot(UK));
range("foot_us_men", FOOT_SPREAD, inchFoot(US_MEN));
range("foot_us_women", FOOT_SPREAD, inchFoot(US_WOMEN), inchFoot(US_WOMEN), inchFoot(US_WOMEN_OTHER));
