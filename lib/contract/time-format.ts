import { z } from 'zod';
import { TIME_FORMATS } from './time-formats';

export { TIME_FORMATS, type TimeFormat } from './time-formats';

export const timeFormatSchema = z.enum(TIME_FORMATS).meta({
  id: 'TimeFormat',
  description: 'How times are written, where the file itself does not show it',
});
