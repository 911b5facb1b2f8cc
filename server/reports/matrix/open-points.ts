/** What is to be determined, resolved or confirmed, with whoever owns what rests on it. */
import type { RequirementResult } from '../../engine/analysis';
import type { Finding } from '../../findings/finding';
import type { Place } from '../../model/place';
import type { OpenPoint } from './record';
import { wordsOf } from './rows';
import { inOrder, linePlace, restingRequirement, type Scene } from './scene';

export function openPoints(scene: Scene): readonly OpenPoint[] {
  const facts = factsByPlace(scene);
  const waiting = requirementsByCause(scene);
  return scene.result.findings
    .filter(({ code }) => code === 'open-point')
    .map((finding) => {
      const concerned = concernedBy(scene, finding, facts, waiting);
      const owners = concerned.map(({ requirement }) => wordsOf(requirement, 'Owner')).filter((owner) => owner !== '');
      return {
        message: finding.message,
        place: linePlace(scene, finding.place),
        owners: [...new Set(owners)],
        requirements: concerned.map((requirement) => restingRequirement(scene, requirement)),
      };
    });
}

function concernedBy(
  scene: Scene,
  { requirement, place }: Finding,
  facts: ReadonlyMap<string, string>,
  waiting: ReadonlyMap<string, ReadonlySet<RequirementResult>>,
): readonly RequirementResult[] {
  const key = keyOf(place);
  const resting = scene.resting.get(facts.get(key) ?? '') ?? [];
  const all = scene.result.analysis.requirements;
  const own = requirement === null ? [] : all.filter((one) => one.requirement.id === requirement);
  return inOrder(scene, new Set([...resting, ...(waiting.get(key) ?? []), ...own]));
}

function factsByPlace({ result }: Scene): ReadonlyMap<string, string> {
  return new Map(
    [...result.analysis.product.facts.values()].map(({ name, file, span }) => [keyOf({ file, span }), name]),
  );
}

/** Requirements that something leaves undecided, by where that is. */
function requirementsByCause({ result }: Scene): ReadonlyMap<string, ReadonlySet<RequirementResult>> {
  const waiting = new Map<string, Set<RequirementResult>>();
  for (const requirement of result.analysis.requirements) {
    const causes = [...requirement.reasons, ...requirement.criteria.flatMap(({ reasons }) => reasons)];
    for (const { place } of causes) {
      const own = waiting.get(keyOf(place)) ?? new Set();
      waiting.set(keyOf(place), own.add(requirement));
    }
  }
  return waiting;
}

function keyOf({ file, span }: Place): string {
  return `${span.start} ${file}`;
}
