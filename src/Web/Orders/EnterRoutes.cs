using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Orders;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Coldpeel.Web.Orders;

/// <summary>The way to enter an order as a list of items or line by line.</summary>
internal static class EnterRoutes
{
    private const int UsualLines = 3;
    private const int MoreLines = 5;
    internal const int MostLines = 60;

    // Field of the form, column of the list.
    private static readonly (string Field, string Column)[] Fields =
    [
        ("item", "item"),
        ("material", "material"),
        ("colour", "fabric colour"),
        ("size", "size"),
        ("quantity", "quantity"),
        ("placement", "placement"),
        ("width", "width mm"),
        ("name", "name"),
        ("nameplace", "name placement"),
        ("number", "number"),
        ("numberplace", "number placement"),
        ("supplied", "supplied by"),
        ("use", "use"),
    ];

    // What stands in every line of the form and means nothing alone.
    private static readonly string[] Chosen = ["supplied", "use"];

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/orders/new", (HttpContext context, IAntiforgery forms) => Show(context, forms, [], null));
        app.MapPost("/orders/new", Enter);
    }

    private static RazorComponentResult Show(
        HttpContext context,
        IAntiforgery forms,
        IReadOnlyList<string> faults,
        IFormCollection? form,
        bool asksPast = false
    )
    {
        var tokens = forms.GetAndStoreTokens(context);
        var filled = form?.ToDictionary(f => f.Key, f => f.Value.ToString()) ?? [];
        return Pages.Of<EnterPage>(
            new
            {
                new EnterOrder(context.RequestServices.GetRequiredService<OpenedWorkshop>()).Choices,
                Faults = faults,
                AsksPast = asksPast,
                Lines = form is null ? UsualLines : Typed(form),
                HadFiles = form?.Files.Count > 0,
                Filled = (IReadOnlyDictionary<string, string>)filled,
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            },
            faults.Count > 0
        );
    }

    private static int Typed(IFormCollection form) =>
        Math.Min(
            MostLines,
            Math.Max(UsualLines, Enumerable.Range(1, MostLines).LastOrDefault(n => form.ContainsKey($"item{n}")))
                + (form["more"] == "yes" ? MoreLines : 0)
        );

    private static async Task<IResult> Enter(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Show(context, forms, [OrderWords.StaleFiles], null);
        }

        var stop = context.RequestAborted;
        var files = new List<HandedFile>();
        foreach (var handed in await Forms.Files(form.Files, stop))
        {
            // The same artwork may be chosen in several lines.
            if (!files.Any(f => f.Name == handed.Name && f.Content.AsSpan().SequenceEqual(handed.Content)))
            {
                files.Add(handed);
            }
        }

        var lines = Enumerable.Range(1, MostLines).Select(n => Line(form, n)).OfType<RawItemLine>().ToArray();
        var head = new OrderHead(
            form["job"].ToString().Trim(),
            form["customer"].ToString().Trim(),
            form["due"].ToString(),
            form["currency"].ToString().Trim()
        )
        {
            Language = KeepSettings.Languages.Contains(form["language"].ToString()) ? form["language"].ToString() : "",
        };
        if (form["more"] == "yes")
        {
            return Show(context, forms, [], form);
        }

        // Whoever fills in so much is told of everything at once.
        var enter = new EnterOrder(workshop);
        var past = form["past"] == "yes" ? null : new AskDue(workshop).Of(head.Due);
        string[] odd = [.. WrongWidths(form), .. past is null ? Array.Empty<string>() : [Say.Fault(past)]];
        if (odd.Length > 0)
        {
            return Show(
                context,
                forms,
                [.. odd, .. enter.Wrong(head, files, lines).Select(Say.Fault).Except(odd)],
                form,
                asksPast: past is not null
            );
        }

        var who = Visitor.Of(context).Name;
        var entered = await Task.Run(
            () => enter.Run(head, files, lines, who, MakeFromFolder.PatientSeconds, stop),
            stop
        );
        return entered.Made is { } made
            ? Results.Redirect($"/orders/{Say.Step(made.Job.Name)}")
            : Show(context, forms, [.. entered.Faults.Select(Say.Fault)], form);
    }

    // A list has its widths in millimetres, whatever unit the form was filled in.
    private static string Typed(string field, string text) =>
        field == "width" ? LengthField.Millimetres(text, "") : text;

    private static string[] WrongWidths(IFormCollection form) =>
        [
            .. Enumerable
                .Range(1, MostLines)
                .Select(n => (Line: n, Typed: form[$"width{n}"].ToString().Trim()))
                .Where(w => w.Typed.Length > 0)
                .Select(w =>
                    LengthField.Wrong(
                        $"{Say.With(OrderWords.EnterLine, w.Line)}, {Say.With(OrderWords.ColumnWidth, Say.LengthUnit)}",
                        w.Typed,
                        Typed("width", w.Typed)
                    )
                )
                .OfType<string>(),
        ];

    private static RawItemLine? Line(IFormCollection form, int number)
    {
        var cells = Fields
            .Select(f => (f.Field, f.Column, Text: Typed(f.Field, form[$"{f.Field}{number}"].ToString().Trim())))
            .Where(f => f.Text.Length > 0)
            .ToArray();
        var art = form.Files.GetFile($"art{number}")?.FileName ?? "";
        return cells.All(c => Chosen.Contains(c.Field)) && art.Length == 0
            ? null
            : new(
                Say.With(OrderWords.EnterLine, number),
                cells.Select(c => (c.Column, c.Text)).Append(("design", art)).ToDictionary(c => c.Item1, c => c.Item2)
            );
    }
}
