/** Processor time of this process in milliseconds: what work costs, however many others share the machine. */
export function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
