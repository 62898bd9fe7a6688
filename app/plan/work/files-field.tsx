import { described, Field } from '@/app/ui/form/field';

const HINT = 'JPEG, PNG, WebP or PDF; at most 10 MiB each and 10 per cleaning';

/** Photographs and reports to be kept with a cleaning. */
export function FilesField({ form, isRequired = false }: { form: string; isRequired?: boolean }) {
  const id = `${form}-files`;
  return (
    <Field id={id} label="Photographs or reports" hint={HINT} error={null} isWide>
      <input
        {...described(id, null, HINT)}
        type="file"
        name="files"
        multiple
        required={isRequired}
        accept="image/jpeg,image/png,image/webp,application/pdf"
      />
    </Field>
  );
}
