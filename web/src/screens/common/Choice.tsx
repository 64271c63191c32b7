/** One of a few: buttons side by side, the chosen one pressed. */
interface ChoiceProps<T extends string> {
  readonly label: string;
  readonly name: string;
  readonly options: readonly { readonly value: T; readonly label: string }[];
  readonly value: T;
  readonly quiet?: boolean;
  readonly onChoose: (value: T) => void;
}

export function Choice<T extends string>({ label, name, options, value, quiet = false, onChoose }: ChoiceProps<T>) {
  return (
    <div class="field">
      <span class={quiet ? "hidden-words" : "label"} id={`choice-${name}`}>{label}</span>
      <div class={options.length > 3 ? "choice many" : "choice"} role="group" aria-labelledby={`choice-${name}`}>
        {options.map((option) => (
          <button key={option.value} type="button" class="button" aria-pressed={option.value === value} data-testid={`${name}-${option.value}`} onClick={() => onChoose(option.value)}>
            {option.label}
          </button>
        ))}
      </div>
    </div>
  );
}
