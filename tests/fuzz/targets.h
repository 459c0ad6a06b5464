// tests/fuzz/targets.h -- bytes from outside, taken the whole way that the program takes them.
//
// One function a target, in a file of its name. libFuzzer calls it with what it makes up, replay
// with the files of corpus/NAME/. A promise that is broken ends the program, as a sanitizer does.
#pragma once
#include <cstdio>
#include <cstdlib>
#include <string_view>

namespace fuzz {

void bundle(std::string_view bytes);      // a folder of files: check, read, merge into a store
void checkpoint(std::string_view bytes);  // changes to the checkpoint beside a store
void entries(std::string_view bytes);     // journal entries: read, fold, all files of a bundle
void mites(std::string_view bytes);       // a question to the mite model
void notes(std::string_view bytes);       // the small texts beside a store
void order(std::string_view bytes);       // a yard to be walked
void pairing(std::string_view bytes);     // eight words, or a scanned code
void play(std::string_view bytes);        // a play script's steps
void profiles(std::string_view bytes);    // label and method files
void sealed(std::string_view bytes);      // a sealed file, and one with a byte changed
void sheet(std::string_view bytes);       // a spreadsheet
void signatures(std::string_view bytes);  // a bundle's signatures.txt
void store(std::string_view bytes);       // changes to the bytes of a store and its log
void workbook(std::string_view bytes);    // a spreadsheet's own file

// Like assert, in every kind of build.
inline void must(bool holds, const char* promise) {
  if (holds) return;
  std::fprintf(stderr, "broken promise: %s\n", promise);
  std::abort();
}

}  // namespace fuzz
