/** Height of a profile, x ascending, at x within it: between the profile's places, which lie closer than anything a
 *  gauge could show, in a straight line. */
export function heightAt(
  profile: readonly { readonly x: number; readonly z: number }[],
  x: number,
): number {
  const after = Math.max(
    1,
    profile.findIndex((point) => point.x >= x - 1e-9),
  );
  const a = profile[after - 1];
  const b = profile[after];
  return a.z + ((b.z - a.z) * (x - a.x)) / (b.x - a.x);
}
