using System.Text;
using System.Text.Json;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>Orders entered as a list of items or line by line.</summary>
public sealed class EnterOrderTests : IDisposable
{
    private readonly SmallWorkshop _small = new();

    public void Dispose() => _small.Dispose();

    private static readonly OrderHead Head = new("AR-7", "Alder Reach Tea Tent", "2027-05-21", "EUR");

    private EnteredOrder Enter(byte[] list, params RawItemLine[] typed) =>
        new EnterOrder(_small.Workshop).Run(
            Head,
            [new("items.csv", list), new("mark.svg", Encoding.UTF8.GetBytes(SmallWorkshop.Bold))],
            typed,
            "Mira",
            2,
            TestContext.Current.CancellationToken
        );

    private EnteredOrder Enter(string list, params RawItemLine[] typed) => Enter(Encoding.UTF8.GetBytes(list), typed);

    [Fact]
    public void The_sample_list_of_the_demo_becomes_an_order_of_groups_sizes_names_and_numbers()
    {
        var folder = Path.Combine(Place.Root, "demo", "tea-tent");
        var entered = new EnterOrder(_small.Workshop).Run(
            Head,
            [
                .. Directory
                    .EnumerateFiles(folder)
                    .Select(f => new HandedFile(Path.GetFileName(f), File.ReadAllBytes(f))),
            ],
            [],
            "Mira",
            2,
            TestContext.Current.CancellationToken
        );
        Assert.Empty(entered.Faults);
        var job = entered.Made!.Job;
        Assert.Equal(
            [("T-shirt", "M", 3), ("T-shirt", "L", 2), ("apron", "", 2), ("polo shirt", "S", 1)],
            job.Items.Select(i => (i.What, i.Size, i.Quantity))
        );
        Assert.Equal(Supplier.Customer, job.Items[2].SuppliedBy);
        Assert.Equal(["apron bib", "nape"], job.Items[2].Placements.Select(p => p.At));
        Assert.NotNull(entered.Made.Work);
        Assert.Contains(entered.Made.Work.Tickets, t => t.Title == "3 × T-shirt, M");
        Assert.Equal(["Åsa", "Bo"], entered.Made.Work.Tickets[2].Rows.Select(r => r.Who));
        Assert.Equal(["7"], entered.Made.Work.Tickets[3].Rows.Select(r => r.Who));
        // What was read is kept as a job file, so that it can be made again and changed.
        using var kept = JsonDocument.Parse(_small.File("AR-7", "brought/job.json"));
        Assert.Equal("AR-7", kept.RootElement.GetProperty("job").GetString());
    }

    // RFC 4180 and what spreadsheet programs save: comma or semicolon, with or without a byte order mark, any case, a decimal comma.
    [Theory]
    [InlineData("item,material,fabric colour,quantity,design,placement,width mm", ',', "60", false)]
    [InlineData("ITEM;MATERIAL;FABRIC COLOUR;QUANTITY;DESIGN;PLACEMENT;WIDTH_MM", ';', "60,5", true)]
    [InlineData("Artikel;Stoff;Stofffarbe;Menge;Motiv;Platz;Breite (mm)", ';', "60.5", true)]
    public void A_list_is_read_whatever_its_case_separator_and_mark(
        string heading,
        char separator,
        string width,
        bool mark
    )
    {
        var row = string.Join(separator, "Tote", "Cotton canvas", "Navy", "2", "MARK", "Bag front", width);
        byte[] list = [.. mark ? Encoding.UTF8.Preamble : [], .. Encoding.UTF8.GetBytes($"{heading}\r\n{row}\r\n")];
        var entered = Enter(list);
        Assert.Empty(entered.Faults);
        var item = entered.Made!.Job.Items.Single();
        Assert.Equal(
            ("tote", "cotton-canvas", 2, "bag front"),
            (item.What, item.Material, item.Quantity, item.Placements[0].At)
        );
        Assert.Equal(width == "60" ? 60 : 60.5, ((DesignRequest.Drawn)entered.Made.Job.Designs[0]).WidthMm);
    }

    [Fact]
    public void Every_fault_of_a_list_names_its_line_and_its_column()
    {
        var entered = Enter(
            """
            item,material,fabric colour,quantity,design,placement,width mm
            tote,cotton-canvas,navy,2,mark.svg,bag front,60
            tote,cotten-canvas,navyy,two,crest.svg,bag frnt,-3
            ,wool-felt,red,1,mark.svg,pennant face,30
            """
        );
        Assert.Null(entered.Made);
        var said = entered.Faults.Select(f => f.ToString()).ToArray();
        string[] wanted =
        [
            "items.csv, line 3, column “fabric colour” says “navyy”",
            "items.csv, line 3, column “material” says “cotten-canvas”, which is not known. There are \"cotton-canvas\"",
            "items.csv, line 3, column “quantity” says “two”",
            "items.csv, line 3, column “design” says “crest.svg”",
            "items.csv, line 3, column “placement” says “bag frnt”, which is not known. There are \"bag front\"",
            "items.csv, line 3, column “width mm” says “-3”",
            "items.csv, line 4, column “item” is empty.",
        ];
        Assert.Equal(wanted.Length, said.Length);
        Assert.All(wanted, w => Assert.Contains(said, s => s.StartsWith(w, StringComparison.Ordinal)));
        Assert.Null(new OpenKeptJob(_small.Workshop).Run("AR-7"));
    }

    [Theory]
    [InlineData("item,material,fabric colour,thread", "The column “thread” is not known.")]
    [InlineData("item,article,material,fabric colour", "mean the same, “item”.")]
    public void A_column_that_nobody_knows_or_that_is_there_twice_is_refused(string heading, string says) =>
        Assert.Contains(says, Enter($"{heading}\na,b,c,d\n").Faults.Single().ToString(), StringComparison.Ordinal);

    [Fact]
    public void A_line_typed_in_joins_the_list_and_a_kept_order_is_never_replaced_by_it()
    {
        var typed = new RawItemLine(
            "line 1",
            new Dictionary<string, string>
            {
                ["item"] = "apron",
                ["material"] = "cotton-canvas",
                ["fabric colour"] = "black",
                ["quantity"] = "",
                ["design"] = "mark.svg",
                ["placement"] = "apron bib",
                ["supplied by"] = "customer",
            }
        );
        const string list =
            "item,material,fabric colour,quantity,design,placement\ntote,cotton-canvas,navy,1,mark.svg,bag front\n";
        var entered = Enter(list, typed);
        Assert.Empty(entered.Faults);
        Assert.Equal(["tote", "apron"], entered.Made!.Job.Items.Select(i => i.What));
        Assert.Contains("kept already", Enter(list).Faults.Single().ToString(), StringComparison.Ordinal);
        Assert.Contains(
            "line 1, column “material” is empty.",
            new EnterOrder(_small.Workshop)
                .Run(
                    Head with
                    {
                        Name = "AR-8",
                    },
                    [],
                    [new("line 1", new Dictionary<string, string> { ["item"] = "tote" })],
                    "Mira",
                    2,
                    default
                )
                .Faults.Select(f => f.ToString())
                .First(f => f.Contains("material", StringComparison.Ordinal)),
            StringComparison.Ordinal
        );
    }
}
