/** One seed for every property test, so that a run can be repeated; `SEED=any` draws a new one and prints it. */
import fc from 'fast-check';

const asked = process.env.SEED ?? '20261002';
const seed = asked === 'any' ? Math.floor(Math.random() * 0x7fffffff) : Number(asked);
if (asked === 'any') console.log(`SEED=${seed}`);

fc.configureGlobal({ seed });
