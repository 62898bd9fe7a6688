import { TIME_FORMAT_WORDS, TIME_FORMATS, type TimeFormat } from '@/lib/contract/time-formats';
import styles from './import.module.css';

type Props = {
  value: TimeFormat | '';
  isDisabled: boolean;
  onPick: (format: TimeFormat | '') => void;
};

/** How times are written; asked for where the file itself does not show it. */
export function TimeFormatField({ value, isDisabled, onPick }: Props) {
  return (
    <label className={styles.zone}>
      <span>Times are written</span>
      <select
        value={value}
        disabled={isDisabled}
        onChange={(event) => onPick(TIME_FORMATS.find((format) => format === event.target.value) ?? '')}
      >
        <option value="">as the file or its mapping shows</option>
        {TIME_FORMATS.map((format) => (
          <option key={format} value={format}>
            {TIME_FORMAT_WORDS[format]}
          </option>
        ))}
      </select>
    </label>
  );
}
