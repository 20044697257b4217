/** The code of an error of the operating system, such as `ENOENT`. */
export function systemCode(error: unknown): string | undefined {
  if (!(error instanceof Error) || !("code" in error) || !("syscall" in error)) return undefined;
  return typeof error.code === "string" ? error.code : undefined;
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: "permission denied",
  EPERM: "not permitted",
  EROFS: "the file system is read-only",
  EFBIG: "it is larger than files may be here",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk quota is used up",
  EMFILE: "too many files are open",
  ENAMETOOLONG: "the name is too long",
  ELOOP: "a link lies in the way, or links lead in a circle",
  EEXIST: "a file lies in the way",
  EIO: "the disk reports an error",
  ENOENT: "its directory doesn't exist",
  ENOTDIR: "a part of its path is no directory",
  EISDIR: "it is a directory",
};

/** Why the operating system refused, in plain words. */
export function systemReason(error: unknown): string {
  const code = systemCode(error) ?? "unknown reason";
  return REASONS[code] ?? code;
}
