/** How far this device's clock is ahead of UTC at an instant, in minutes. */
export function zoneOffset(instant: number): number {
  return -new Date(instant).getTimezoneOffset();
}
