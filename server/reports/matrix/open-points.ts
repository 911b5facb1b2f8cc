/** What is to be determined, resolved or confirmed, with whoever owns what rests on it. */
import { concernedBy, ownersOf } from '../../findings/open-owners';
import type { OpenPoint } from './record';
import { inOrder, linePlace, restingRequirement, type Scene } from './scene';

/** In the order of their places. */
export function openPoints(scene: Scene): readonly OpenPoint[] {
  const { analysis, findings } = scene.result;
  const results = new Map(analysis.requirements.map((result) => [result.requirement, result]));
  return findings
    .filter(({ code }) => code === 'open-point')
    .map((finding) => {
      const concerned = concernedBy(analysis, finding);
      const waiting = inOrder(scene, new Set(concerned.flatMap((requirement) => results.get(requirement) ?? [])));
      return {
        message: finding.message,
        place: linePlace(scene, finding.place),
        owners: ownersOf(concerned),
        requirements: waiting.map((result) => restingRequirement(scene, result)),
      };
    });
}
