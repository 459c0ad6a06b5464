#include "storage/sheets/workbook_parts.h"

#include <expat.h>
#include <fmt/format.h>
#include <zip.h>

#include <array>

namespace storage {
namespace {

using engine::Code;
using engine::Status;

std::string_view without_namespace(std::string_view name) {
  return name.substr(name.rfind('\n') + 1);  // npos + 1 is 0
}

// What Expat calls back into.
struct Parse {
  XmlReader& to;
  XML_Parser parser;
  bool declares = false;
};

void on_start(void* data, const char* name, const char** attributes) {
  XmlAttributes all;
  for (; *attributes != nullptr; attributes += 2)
    all.emplace(without_namespace(attributes[0]), attributes[1]);
  static_cast<Parse*>(data)->to.start(without_namespace(name), all);
}
void on_end(void* data, const char* name) {
  static_cast<Parse*>(data)->to.end(without_namespace(name));
}
void on_text(void* data, const char* text, int size) {
  static_cast<Parse*>(data)->to.text({text, static_cast<std::size_t>(size)});
}
void on_doctype(void* data, const char*, const char*, const char*, int) {
  auto* parse = static_cast<Parse*>(data);
  parse->declares = true;
  XML_StopParser(parse->parser, XML_FALSE);
}

struct CloseFile {
  void operator()(zip_file_t* file) const { zip_fclose(file); }
};
using PartStream = std::unique_ptr<zip_file_t, CloseFile>;
struct FreeParser {
  void operator()(XML_Parser parser) const { XML_ParserFree(parser); }
};
using ParserHandle = std::unique_ptr<std::remove_pointer_t<XML_Parser>, FreeParser>;

Status damaged(const std::string& part, const std::string& why) {
  return {Code::BadInput,
          fmt::format("its part {} cannot be read ({}); open the workbook in the spreadsheet "
                      "program and save it again, without a password",
                      part, why)};
}

ParserHandle make_parser(Parse& parse) {
  ParserHandle parser(XML_ParserCreateNS(nullptr, '\n'));
  parse.parser = parser.get();
  XML_SetUserData(parser.get(), &parse);
  XML_SetElementHandler(parser.get(), on_start, on_end);
  XML_SetCharacterDataHandler(parser.get(), on_text);
  XML_SetStartDoctypeDeclHandler(parser.get(), on_doctype);
  return parser;
}

Status read_all(const std::string& part, zip_file_t* file, XmlReader& to) {
  Parse parse{to, nullptr};
  const ParserHandle parser = make_parser(parse);
  std::array<char, 64 * 1024> piece{};
  for (std::size_t done = 0; done <= kLargestPart;) {
    const auto got = zip_fread(file, piece.data(), piece.size());
    if (got < 0) return damaged(part, zip_file_strerror(file));
    done += static_cast<std::size_t>(got);
    if (XML_Parse(parser.get(), piece.data(), static_cast<int>(got), got == 0) != XML_STATUS_OK)
      return damaged(part, parse.declares ? "it declares a document type"
                                          : XML_ErrorString(XML_GetErrorCode(parser.get())));
    if (got == 0 || to.enough()) return {};
  }
  return damaged(part, "it is larger than 1 GB");
}

}  // namespace

void WorkbookParts::Close::operator()(zip* archive) const { zip_discard(archive); }

engine::Result<WorkbookParts> WorkbookParts::open(std::string_view bytes) {
  zip_error_t why;
  zip_error_init(&why);
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &why);
  zip_t* archive = source == nullptr ? nullptr : zip_open_from_source(source, ZIP_RDONLY, &why);
  if (archive == nullptr) {
    zip_source_free(source);
    const std::string words = zip_error_strerror(&why);
    zip_error_fini(&why);
    return Status(Code::BadInput, fmt::format("is no workbook, or a damaged one ({})", words));
  }
  zip_error_fini(&why);
  WorkbookParts parts;
  parts.archive_.reset(archive);
  return parts;
}

bool WorkbookParts::has(const std::string& part) const {
  return zip_name_locate(archive_.get(), part.c_str(), 0) >= 0;
}

Status WorkbookParts::read(const std::string& part, XmlReader& to) const {
  if (!has(part)) return {Code::NotFound, fmt::format("holds no part {}", part)};
  const PartStream file(zip_fopen(archive_.get(), part.c_str(), 0));
  if (file == nullptr) return damaged(part, zip_strerror(archive_.get()));
  return read_all(part, file.get(), to);
}

}  // namespace storage
