//! The two XML files of an archive: what its tables are, and what the data set is.

use super::table::Table;
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};
use std::io;

/// What the data set is, for those who find it.
pub(super) struct DataSet<'a> {
    pub(super) id: String,
    pub(super) title: &'a str,
    pub(super) rights_holder: &'a str,
    pub(super) license: Option<&'a str>,
    /// ISO 8601 day.
    pub(super) published: &'a str,
    pub(super) vouchers: usize,
}

/// `meta.xml` after the Darwin Core text guide (<https://dwc.tdwg.org/text/>): files, then the
/// identifier, then the fields.
pub(super) fn meta(tables: &[Table]) -> io::Result<Vec<u8>> {
    document(|xml| {
        xml.create_element("archive")
            .with_attributes([
                ("xmlns", "http://rs.tdwg.org/dwc/text/"),
                ("metadata", super::EML),
            ])
            .write_inner_content(|xml| tables.iter().try_for_each(|table| of_table(xml, table)))?;
        Ok(())
    })
}

fn of_table(xml: &mut Writer<Vec<u8>>, table: &Table) -> io::Result<()> {
    let (element, id, first) = if table.is_extension() {
        ("extension", "coreid", 1)
    } else {
        ("core", "id", 0)
    };
    xml.create_element(element)
        .with_attributes([
            ("encoding", "UTF-8"),
            ("fieldsTerminatedBy", ","),
            ("linesTerminatedBy", "\\n"),
            ("fieldsEnclosedBy", "\""),
            ("ignoreHeaderLines", "1"),
            ("rowType", table.row_type),
        ])
        .write_inner_content(|xml| {
            xml.create_element("files")
                .write_inner_content(|xml| text(xml, "location", table.file))?;
            xml.create_element(id)
                .with_attribute(("index", "0"))
                .write_empty()?;
            for (at, term) in (first..).zip(table.terms) {
                xml.create_element("field")
                    .with_attributes([("index", at.to_string().as_str()), ("term", *term)])
                    .write_empty()?;
            }
            Ok(())
        })?;
    Ok(())
}

/// `eml.xml`: as much of the Ecological Metadata Language 2.2.0 as GBIF's profile 1.3 asks for.
pub(super) fn eml(set: &DataSet<'_>) -> io::Result<Vec<u8>> {
    let who = |xml: &mut Writer<Vec<u8>>, role: &str| -> io::Result<()> {
        xml.create_element(role)
            .write_inner_content(|xml| text(xml, "organizationName", set.rights_holder))?;
        Ok(())
    };
    let paragraph = |xml: &mut Writer<Vec<u8>>, element: &str, words: &str| -> io::Result<()> {
        xml.create_element(element)
            .write_inner_content(|xml| text(xml, "para", words))?;
        Ok(())
    };
    document(|xml| {
        xml.create_element("eml:eml")
            .with_attributes([
                ("xmlns:eml", "https://eml.ecoinformatics.org/eml-2.2.0"),
                ("packageId", set.id.as_str()),
                ("system", "http://gbif.org"),
                ("scope", "system"),
                ("xml:lang", "en"),
            ])
            .write_inner_content(|xml| {
                xml.create_element("dataset").write_inner_content(|xml| {
                    text(xml, "title", set.title)?;
                    who(xml, "creator")?;
                    who(xml, "metadataProvider")?;
                    text(xml, "pubDate", set.published)?;
                    text(xml, "language", "eng")?;
                    let about = format!(
                        "Vouchers of bracket fungi ({}), with measurements of their undersides on photos. A \
                         measurement agrees with a published range or speaks against it; names are those \
                         that people gave.",
                        set.vouchers
                    );
                    paragraph(xml, "abstract", &about)?;
                    let rights = set.license.unwrap_or(
                        "No licence has been stated. Ask the rights holder before using the data.",
                    );
                    paragraph(xml, "intellectualRights", rights)?;
                    who(xml, "contact")
                })?;
                Ok(())
            })?;
        Ok(())
    })
}

fn document(fill: impl FnOnce(&mut Writer<Vec<u8>>) -> io::Result<()>) -> io::Result<Vec<u8>> {
    let mut xml = Writer::new_with_indent(Vec::new(), b' ', 2);
    xml.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    fill(&mut xml)?;
    let mut bytes = xml.into_inner();
    bytes.push(b'\n');
    Ok(bytes)
}

fn text(xml: &mut Writer<Vec<u8>>, element: &str, words: &str) -> io::Result<()> {
    xml.create_element(element)
        .write_text_content(BytesText::new(&printable(words)))?;
    Ok(())
}

/// What XML 1.0 (2.2) can hold: control characters other than blanks cannot stand in it, even escaped.
fn printable(words: &str) -> String {
    words
        .chars()
        .filter(|c| !c.is_control() || c.is_whitespace())
        .collect()
}
