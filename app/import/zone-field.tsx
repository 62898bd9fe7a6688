import styles from './import.module.css';

type Props = {
  value: string;
  siteZones: string[];
  timeZones: string[];
  isDisabled: boolean;
  onPick: (zone: string) => void;
};

/** In which zone times without an offset are meant; never guessed. */
export function ZoneField({ value, siteZones, timeZones, isDisabled, onPick }: Props) {
  return (
    <label className={styles.zone}>
      <span>Times without offset are in</span>
      <select value={value} disabled={isDisabled} onChange={(event) => onPick(event.target.value)}>
        <option value="">no zone: keep such rows aside</option>
        <optgroup label="Zones of your sites">
          {siteZones.map((zone) => (
            <option key={zone}>{zone}</option>
          ))}
        </optgroup>
        <optgroup label="All zones">
          {timeZones
            .filter((zone) => !siteZones.includes(zone))
            .map((zone) => (
              <option key={zone}>{zone}</option>
            ))}
        </optgroup>
      </select>
    </label>
  );
}
