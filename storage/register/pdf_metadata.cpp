#include "storage/register/pdf_metadata.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>

#include "storage/text/html_text.h"

namespace storage {
namespace {

// The number behind `name`, looked for from the last trailer on.
std::optional<std::size_t> number_behind(std::string_view text, std::string_view name) {
  const auto at = text.find(name);
  if (at == std::string_view::npos) return std::nullopt;
  const auto digit = text.find_first_of("0123456789", at + name.size());
  if (digit == std::string_view::npos) return std::nullopt;
  std::size_t number = 0;
  std::from_chars(text.data() + digit, text.data() + text.size(), number);
  return number;
}

// What stands between << and >> of an object that is a dictionary.
std::optional<std::string> dictionary_of(std::string_view pdf, std::size_t object) {
  const std::string head = fmt::format("\n{} 0 obj\n<<", object);
  const auto at = pdf.rfind(head);
  if (at == std::string_view::npos) return std::nullopt;
  const auto begin = at + head.size(), end = pdf.find(">>\nendobj", begin);
  if (end == std::string_view::npos) return std::nullopt;
  return std::string(pdf.substr(begin, end - begin));
}

std::string xmp_of(const PaperInfo& info) {
  std::string xmp =
      "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
      "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF "
      "xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\"><rdf:Description rdf:about=\"\" "
      "xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\">\n"
      "<dc:format>application/pdf</dc:format>\n"
      "<dc:language><rdf:Bag><rdf:li>en</rdf:li></rdf:Bag></dc:language>\n"
      "<xmp:CreatorTool>Duskwalk</xmp:CreatorTool>\n";
  if (!info.title.empty())
    xmp += fmt::format(
        "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:title>\n",
        html_escaped(info.title));
  if (!info.author.empty())
    xmp += fmt::format("<dc:creator><rdf:Seq><rdf:li>{}</rdf:li></rdf:Seq></dc:creator>\n",
                       html_escaped(info.author));
  if (!info.created.empty())
    xmp +=
        fmt::format("<xmp:CreateDate>{0}</xmp:CreateDate>\n<xmp:ModifyDate>{0}</xmp:ModifyDate>\n",
                    info.created);
  return xmp + "</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>";
}

}  // namespace

std::string with_metadata(std::string pdf, const PaperInfo& info) {
  const std::string_view all = pdf;
  const std::string_view tail = all.substr(std::min(all.rfind("\ntrailer\n"), all.size()));
  const auto size = number_behind(tail, "/Size"), root = number_behind(tail, "/Root"),
             about = number_behind(tail, "/Info"), before = number_behind(tail, "startxref");
  if (!size || !root || !about || !before) return pdf;
  const auto catalog = dictionary_of(all, *root);
  if (!catalog) return pdf;
  const std::string xmp = xmp_of(info);
  if (!pdf.ends_with('\n')) pdf += '\n';
  const std::size_t catalog_at = pdf.size();
  pdf += fmt::format(
      "{} 0 obj\n<<{}   /Lang (en)\n   /ViewerPreferences << "
      "/DisplayDocTitle true >>\n   /Metadata {} 0 R\n>>\nendobj\n",
      *root, *catalog, *size);
  const std::size_t xmp_at = pdf.size();
  pdf += fmt::format(
      "{} 0 obj\n<< /Type /Metadata /Subtype /XML /Length {} >>\nstream\n{}\nendstream\nendobj\n",
      *size, xmp.size(), xmp);
  const std::size_t table_at = pdf.size();
  pdf += fmt::format(
      "xref\n{} 1\n{:010} 00000 n \n{} 1\n{:010} 00000 n \ntrailer\n<< /Size {}\n   /Root {} 0 R\n"
      "   /Info {} 0 R\n   /Prev {}\n>>\nstartxref\n{}\n%%EOF\n",
      *root, catalog_at, *size, xmp_at, *size + 1, *root, *about, *before, table_at);
  return pdf;
}

}  // namespace storage
