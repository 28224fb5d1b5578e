export function chromiumPath(
  environment?: Readonly<Record<string, string | undefined>>,
  places?: readonly string[],
): string | undefined;
