/** Prints `N passed, N failed` (and `, N skipped`) from the JSON report of a test run, as the last line of a CI log. */
import { readFileSync } from 'node:fs';

const [file] = process.argv.slice(2);
const report = read(file);
if (report === null) {
  console.log('0 passed, 1 failed');
  process.exit(1);
}

const skipped = (report.numPendingTests ?? 0) + (report.numTodoTests ?? 0);
// A test file that could not be loaded holds no test that failed; it counts as one all the same.
const broken = report.testResults.filter(
  (suite) => suite.status === 'failed' && suite.assertionResults.length === 0,
).length;
const failed = report.numFailedTests + broken;
console.log(`${report.numPassedTests} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
process.exit(failed === 0 ? 0 : 1);

/** Null when the run ended before it wrote a report (a build error, a crash). */
function read(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return null;
  }
}
