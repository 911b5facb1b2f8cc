/** `plimsoll budget`: the contributors to a sum. */
import type { Analysis } from '../engine/analysis';
import { type Budget, budgetOf } from '../engine/budget';
import { limitUnits, shownUnit } from '../findings/fact-units';
import type { Host } from '../host';
import { knownNames } from '../model/names';
import { nearestWords } from '../model/nearest';
import { budgetJson, budgetText, roomOf } from '../reports/budget';
import { jsonText } from '../reports/json-text';
import { type Delivery, deliver, styleFor } from './deliver';
import type { ExitStatus } from './exit-status';
import { refuse } from './output';
import { checkProduct } from './product';

export interface BudgetOptions extends Delivery {
  readonly dir: string;
  readonly format: 'text' | 'json';
}

export async function runBudget(host: Host, name: string, options: BudgetOptions, today: string): Promise<ExitStatus> {
  const checked = await checkProduct(host, options.dir, today, 'verdicts');
  if (checked === null) return 2;
  const { analysis } = checked.result;
  const fact = analysis.product.facts.get(name);
  if (fact === undefined) return refuse(`there is no fact “${name}”${nearestHint(analysis, name)}`);
  const modes = analysis.facts.find((result) => result.fact === fact)?.values.map(({ mode }) => mode) ?? [null];
  const drawn = modes.map((mode) => budgetOf(analysis.lowering, fact, mode));
  const budgets = drawn.filter((budget): budget is Budget => !('reasons' in budget));
  const reasons = drawn.flatMap((budget) => ('reasons' in budget ? budget.reasons : []));
  const [first] = budgets;
  const typed = analysis.lowering.fact(fact, first?.mode ?? null, 'item');
  if (first === undefined || typed.type !== 'quantity') {
    return refuse(`${name} has no budget: ${reasons.map(({ message }) => message).join('; ') || 'it is no quantity'}`);
  }
  const unit = shownUnit(
    limitUnits(analysis.requirements).get(name),
    first.unit,
    typed.dimension,
    analysis.product.units,
  );
  const room = roomOf(analysis.requirements, name);
  const content =
    options.format === 'json'
      ? { pieces: jsonText({ ...budgetJson(name, budgets, room, unit) }) }
      : budgetText(budgets, room, unit, styleFor(options));
  return (await deliver(host, content, options)) && !checked.incomplete ? 0 : 2;
}

function nearestHint({ product }: Analysis, name: string): string {
  const near = nearestWords(name, knownNames(product)).slice(0, 3);
  return near.length === 0 ? '' : `; the nearest ${near.length === 1 ? 'is' : 'are'} ${near.join(', ')}`;
}
