/** Where the bench's data is kept when nobody says otherwise. */
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';

const NAME = 'worth-the-heat';

/**
 * $WORTH_THE_HEAT_DATA, else the place the platform keeps application data: %APPDATA% on Windows, Application Support on
 * macOS, $XDG_DATA_HOME or ~/.local/share elsewhere.
 */
export function dataFolder(
  env: Readonly<Record<string, string | undefined>> = process.env,
  platform: NodeJS.Platform = process.platform,
  home: string = homedir(),
): string {
  const wanted = env.WORTH_THE_HEAT_DATA;
  if (wanted) return resolve(wanted);
  if (platform === 'win32') return join(env.APPDATA || join(home, 'AppData', 'Roaming'), NAME);
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', NAME);
  // the XDG specification has relative paths ignored
  const data = env.XDG_DATA_HOME?.startsWith('/') ? env.XDG_DATA_HOME : join(home, '.local', 'share');
  return join(data, NAME);
}
