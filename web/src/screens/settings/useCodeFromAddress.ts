/** Whether the address brought a join code, when the screen opened or since; the code goes to `onCode`. */
import { useEffect, useState } from "preact/hooks";
import { takeCodeFromAddress } from "./joinCode";

export function useCodeFromAddress(onCode: (code: string) => void): boolean {
  const [isBrought, setBrought] = useState(false);
  useEffect(() => {
    const look = () => {
      const code = takeCodeFromAddress();
      if (code === null) return;
      onCode(code);
      setBrought(true);
    };
    look();
    addEventListener("hashchange", look);
    return () => removeEventListener("hashchange", look);
  }, []);
  return isBrought;
}
