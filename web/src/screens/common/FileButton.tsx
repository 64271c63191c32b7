/** A file chosen by the person: a field under a button, so that keys reach it too. */
interface FileButtonProps {
  readonly label: string;
  readonly testid: string;
  readonly accept: string;
  readonly camera?: boolean;
  readonly onFile: (file: File) => void;
}

export function FileButton({ label, testid, accept, camera, onFile }: FileButtonProps) {
  const chosen = (input: HTMLInputElement) => {
    const [file] = input.files ?? [];
    input.value = "";
    if (file) onFile(file);
  };
  return (
    <label class="button file-button">
      {label}
      <input
        type="file" accept={accept} capture={camera ? "environment" : undefined} data-testid={testid}
        onChange={(event) => chosen(event.currentTarget)}
      />
    </label>
  );
}
