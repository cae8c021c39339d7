using System.Globalization;
using System.Text;
using System.Text.Json;
using CliWrap;
using CliWrap.Buffered;
using Coldpeel.Files.Orders;
using CsCheck;

namespace Coldpeel.Files.Tests.Orders;

public sealed class RosterReaderTests
{
    public static TheoryData<string> Captions => [.. Cases().Select(c => c.Caption)];

    [Theory]
    [MemberData(nameof(Captions))]
    public void Rosters_are_read_as_their_owners_meant_them(string caption)
    {
        var one = Cases().Single(c => c.Caption == caption);
        var read = RosterReader.Read(Written(Bytes(one)), "names.csv");
        if (one.Fault is not null)
        {
            Assert.StartsWith(one.Fault, read.Fault?.ToString(), StringComparison.Ordinal);
            Assert.DoesNotContain('\n', read.Fault!.ToString());
            return;
        }

        Assert.Null(read.Fault);
        var roster = read.Value!;
        Assert.Equal(one.Columns!, roster.Columns);
        Assert.Equal(one.Lines!, roster.Rows.Select(r => r.Line));
        Assert.Equal(one.Rows!, roster.Rows.Select(r => roster.Columns.Select(c => r.Cells[c]).ToArray()));
        Assert.Equal(one.Note is null, roster.Note is null);
        Assert.Contains(one.Note ?? "", roster.Note?.English ?? "", StringComparison.Ordinal);
    }

    [Fact]
    public void A_column_is_found_whatever_its_capitals()
    {
        var roster = RosterReader.Read(Written("Name\nIda\n"u8.ToArray()), "names.csv").Value!;
        Assert.Equal("Ida", roster.Rows[0].Cells["NAME"]);
    }

    [Fact]
    public void A_roster_that_is_not_there_or_too_large_is_said_in_one_line()
    {
        var folder = Place.NewFolder();
        Assert.Contains(
            "not there",
            RosterReader.Read(Path.Combine(folder, "a.csv"), "a.csv").Fault!.ToString(),
            StringComparison.Ordinal
        );
        Assert.Contains("not there", RosterReader.Read(folder, "a.csv").Fault!.ToString(), StringComparison.Ordinal);
        var rows = string.Concat(Enumerable.Range(1, RosterReader.MostRows).Select(i => $"{i}\n"));
        Assert.Equal(
            RosterReader.MostRows,
            RosterReader.Read(Written(Encoding.UTF8.GetBytes("no\n" + rows)), "a.csv").Value!.Rows.Length
        );
        var more = RosterReader.Read(Written(Encoding.UTF8.GetBytes("no\n" + rows + "x\n")), "a.csv").Fault!;
        Assert.Equal("a.csv, line 5002", more.Where);
        var big = RosterReader.Read(Written(new byte[RosterReader.MostBytes + 1]), "a.csv").Fault!;
        Assert.Contains("10 MB is the most", big.What.English, StringComparison.Ordinal);
        var wide = RosterReader.Read(
            Written(Encoding.UTF8.GetBytes(new string(',', 100_000) + "\n" + new string('x', 1_000_000) + "\n")),
            "a.csv"
        );
        Assert.NotNull(wide.Fault);
    }

    [Fact]
    public async Task What_the_csv_module_of_Python_writes_is_read_back_cell_by_cell()
    {
        var folder = Place.NewFolder();
        const string program = """
            import csv, json, random
            pick = random.Random(7)
            pieces = ["a", "B", "ø", "ж", " x", ",", ";", '"', "\n", "'", "7", "\t.", "|"]
            rows = [["name", "number", "club"]] + [["n" + "".join(pick.choices(pieces, k=pick.randint(0, 6))) + "n" for _ in range(3)] for _ in range(400)]
            csv.writer(open("excel.csv", "w", newline="", encoding="utf-8")).writerows(rows)
            csv.writer(open("tab.csv", "w", newline="", encoding="utf-8-sig"), dialect="excel-tab").writerows(rows)
            csv.writer(open("all.csv", "w", newline="", encoding="utf-16"), delimiter=";", quoting=csv.QUOTE_ALL, lineterminator="\n").writerows(rows)
            json.dump(rows[1:], open("rows.json", "w"))
            """;
        await Cli.Wrap(Place.Tool("python3"))
            .WithArguments(["-c", program])
            .WithWorkingDirectory(folder)
            .ExecuteBufferedAsync(TestContext.Current.CancellationToken);
        var expected = JsonSerializer.Deserialize<string[][]>(
            await File.ReadAllTextAsync(Path.Combine(folder, "rows.json"), TestContext.Current.CancellationToken)
        )!;
        foreach (var file in new[] { "excel.csv", "tab.csv", "all.csv" })
        {
            var read = RosterReader.Read(Path.Combine(folder, file), file);
            Assert.Null(read.Fault);
            var cells = read.Value!.Rows.Select(r => read.Value.Columns.Select(c => r.Cells[c]).ToArray());
            // A tab inside a name is a slip of the hand: it is read as a space.
            Assert.Equal(expected.Select(r => r.Select(c => c.Replace('\t', ' ')).ToArray()), cells);
        }
    }

    [Fact]
    public void Whatever_bytes_come_the_answer_is_a_roster_or_one_line() =>
        Gen
            .Byte.Array[0, 60]
            .Sample(
                bytes =>
                {
                    var path = Written(bytes);
                    var read = RosterReader.Read(path, "a.csv");
                    File.Delete(path);
                    return read.Ok
                        ? read.Value.Rows.Length > 0
                            && read.Value.Rows.All(r => r.Cells.Count == read.Value.Columns.Length)
                        : !read.Fault.ToString().Contains('\n', StringComparison.Ordinal);
                },
                iter: 500,
                threads: 1
            );

    private static string Written(byte[] bytes)
    {
        var path = Path.Combine(Folder.Value, $"{Guid.NewGuid():N}.csv");
        File.WriteAllBytes(path, bytes);
        return path;
    }

    private static readonly Lazy<string> Folder = new(Place.NewFolder);
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);

    private static List<RosterCase> Cases() =>
        JsonSerializer.Deserialize<List<RosterCase>>(File.ReadAllText(Place.Data("orders", "roster-cases.json")), Web)!;

    private static byte[] Bytes(RosterCase one) =>
        one.Encoding switch
        {
            null => new UTF8Encoding(false).GetBytes(one.Input),
            "utf-8-bom" => [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(one.Input)],
            "utf-16le" => [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(one.Input)],
            "utf-16be" => [0xFE, 0xFF, .. Encoding.BigEndianUnicode.GetBytes(one.Input)],
            "windows-1252" => CodePagesEncodingProvider.Instance.GetEncoding(1252)!.GetBytes(one.Input),
            "hex" =>
            [
                .. one
                    .Input.Split(' ')
                    .Select(b => byte.Parse(b, NumberStyles.HexNumber, CultureInfo.InvariantCulture)),
            ],
            _ => throw new InvalidDataException(one.Encoding),
        };

    private sealed record RosterCase(
        string Caption,
        string Input,
        string? Encoding,
        string[]? Columns,
        string[][]? Rows,
        int[]? Lines,
        string? Note,
        string? Fault
    );
}
