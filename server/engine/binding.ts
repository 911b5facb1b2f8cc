/** Which requirements bind: obligation *shall*, and priority *must* or none given. */
import { attributesOf, type Requirement } from '../model/requirement';

export function isBinding(requirement: Requirement): boolean {
  if (requirement.obligation !== 'shall') return false;
  return attributesOf(requirement, 'Priority').every(({ text }) => text.toLowerCase() === 'must');
}
