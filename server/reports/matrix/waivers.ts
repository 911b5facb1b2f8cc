/** Every exception that was granted, in force or not. */
import type { RequirementResult } from '../../engine/analysis';
import type { WaiverResult } from '../../engine/waive';
import { attributesOf } from '../../model/requirement';
import { readWaiver } from '../../model/waiver';
import { printExpression } from '../../syntax/expression/print';
import type { WaiverEntry, WaiverState } from './record';
import { linePlace, restingRequirement, type Scene } from './scene';

export function waiverEntries(scene: Scene): readonly WaiverEntry[] {
  return scene.result.analysis.requirements.flatMap((result) => waiverEntry(scene, result));
}

const STATES: Readonly<Record<WaiverResult['type'], WaiverState>> = {
  'in-force': 'in force',
  over: 'over',
  exceeded: 'exceeded',
  open: 'not applied',
  bad: 'not applied',
};

function waiverEntry(scene: Scene, result: RequirementResult): readonly WaiverEntry[] {
  const { requirement, waiver } = result;
  const [attribute] = attributesOf(requirement, 'Waived');
  if (attribute === undefined) return [];
  const read = readWaiver(attribute, scene.result.analysis.product.units);
  const common = {
    requirement: restingRequirement(scene, result),
    place: linePlace(scene, { file: requirement.file, span: attribute.valueSpan }),
    state: waiver === null ? 'not needed' : STATES[waiver.type],
  } as const;
  if ('mistake' in read) return [{ ...common, problem: read.mistake, extent: '', reason: '', who: '', until: '' }];
  const { extent, reason, who, until } = read;
  const problem = waiver?.type === 'open' ? waiver.why : '';
  return [
    { ...common, problem, extent: extent === null ? '' : printExpression(extent.expression), reason, who, until },
  ];
}
