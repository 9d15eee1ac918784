// Package outfile writes results so that nothing of the user's is lost and a
// reader never meets half a file.
//
// What may be replaced: an input never, nor anything but regular files; a file
// that is not ours only by force. Ours are the files that the folder's list
// ([ListName]) names with the hash they still have, and single files that begin
// as the caller says his files begin.
//
// How it is written: a new folder is filled beside its place under a temporary
// name and renamed whole. A folder that is there already and holds nothing but
// ours is exchanged in one step for one that was filled beside it, so that a run
// killed at any moment leaves the old files or the new ones. That takes a system
// that exchanges folders, as Linux does on its usual file systems, and is not done
// to a folder in which the program was started. Elsewhere all files are complete
// and synced under temporary names before the first is renamed, and the list says
// beforehand what is coming: a run killed between two renames, which take some
// milliseconds together, leaves whole files of both, which the next run knows as
// ours and replaces. Temporary names hold the number of the process; those of
// processes that have ended are removed by the next run that writes there.
package outfile
