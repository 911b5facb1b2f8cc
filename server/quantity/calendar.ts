/** Dates as points: ISO 8601-1:2019 calendar dates (5.2.2.1, from memory) to and from seconds since 1970-01-01, UTC. */
import { dimension } from './dimension';
import type { Rational } from './rational';
import * as rational from './rational';
import { UNITY, type Unit } from './unit';

/** The unit of a date: base units are seconds since 1970-01-01T00:00 UTC. It is written as a date, never as a number. */
export const DATE: Unit = {
  ...UNITY,
  symbol: 'date',
  canonical: 'date',
  dimension: dimension({ time: 1 }),
  point: 'date',
};

const SECONDS_A_DAY = 86_400n;

/** The start of a day, or null when the calendar has no such day. Years 0000 to 9999, Gregorian throughout. */
export function dateToBase(year: number, month: number, day: number): Rational | null {
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return null;
  return { numerator: BigInt(dayNumber(year, month, day)) * SECONDS_A_DAY, denominator: 1n };
}

/** Whether a text is a day of the calendar in the extended format of ISO 8601-1:2019, 5.2.2.1: `2026-10-02`. */
export function isDay(text: string): boolean {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? [];
  return day !== undefined && dateToBase(Number(year), Number(month), Number(day)) !== null;
}

/** The day that holds a moment, `2026-10-02`. Null outside the years 0000 to 9999. */
export function dateOfBase(seconds: Rational): string | null {
  const days = rational.floor(rational.divide(seconds, { numerator: SECONDS_A_DAY, denominator: 1n })).numerator;
  if (days < BigInt(dayNumber(0, 1, 1)) || days > BigInt(dayNumber(9999, 12, 31))) return null;
  const { year, month, day } = civilDate(Number(days));
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
}

/** The day after one; null after the last of the year 9999. */
export function dayAfter(text: string): string | null {
  const [year = 0, month = 0, day = 0] = text.split('-').map(Number);
  const start = dateToBase(year, month, day);
  return start === null ? null : dateOfBase(rational.add(start, { numerator: SECONDS_A_DAY, denominator: 1n }));
}

export function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeapYear(year) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

function isLeapYear(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

/** Days since 1970-01-01. Years begin in March here, so that the leap day is a year's last and 153 days make 5 months. */
function dayNumber(year: number, month: number, day: number): number {
  const shiftedYear = month <= 2 ? year - 1 : year;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  const leapDays = Math.floor(shiftedYear / 4) - Math.floor(shiftedYear / 100) + Math.floor(shiftedYear / 400);
  return shiftedYear * 365 + leapDays + dayOfYear - DAYS_TO_1970;
}

/** From 0000-03-01 to 1970-01-01. */
const DAYS_TO_1970 = 719_468;
/** In 400 years of the Gregorian calendar. */
const DAYS_OF_ERA = 146_097;

function civilDate(days: number): { year: number; month: number; day: number } {
  const shifted = days + DAYS_TO_1970;
  const era = Math.floor(shifted / DAYS_OF_ERA);
  const dayOfEra = shifted - era * DAYS_OF_ERA;
  const leapDays = Math.floor(dayOfEra / 1460) - Math.floor(dayOfEra / 36_524) + Math.floor(dayOfEra / 146_096);
  const yearOfEra = Math.floor((dayOfEra - leapDays) / 365);
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1;
  const month = shiftedMonth < 10 ? shiftedMonth + 3 : shiftedMonth - 9;
  return { year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0), month, day };
}
