using System.Globalization;
using System.IO.Compression;
using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Findings;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Coldpeel.Web.Rooms;

/// <summary>The workshop itself: settings, who may come in, safe-keeping.</summary>
internal static class WorkshopRoutes
{
    private const long MostBackupBytes = 10_000_000_000;

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/workshop",
            (HttpContext c, IAntiforgery f, OpenedWorkshop w) =>
                Show(c, f, w, null, c.Request.Query["kept"] == "yes" ? RoomWords.AnswersKept : null)
        );
        app.MapPost("/workshop/answers", Answers);
        app.MapPost("/workshop/network", Network);
        app.MapPost("/workshop/code", Code);
        app.MapPost("/workshop/out", ThrowOut);
        app.MapGet("/workshop/backup", Backup);
        app.MapGet("/workshop/export", Export);
        app.MapPost("/workshop/restore", Restore);
        app.MapGet("/join", (HttpContext c, IAntiforgery f) => Door(c, f, null));
        app.MapPost("/join", Join);
        // What a device needs to trust the workshop: the certificate without its key, as every greeting shows it anyway.
        app.MapGet(
            "/join/certificate",
            (NetworkCertificate certificate) =>
                Results.Bytes(certificate.Public(), "application/x-x509-ca-cert", "coldpeel-workshop.crt")
        );
    }

    private static RazorComponentResult Show(
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        string? fault,
        string? done,
        WorkshopAnswers? asked = null
    )
    {
        var tokens = forms.GetAndStoreTokens(context);
        var devices = new Devices(workshop);
        return Pages.Of<WorkshopPage>(
            new
            {
                Answers = asked ?? new KeepAnswers(workshop).Now(),
                Stand = new KeepAnswers(workshop).Stand(),
                Network = context.RequestServices.GetRequiredService<NetworkDoor>().Now(),
                History = (IReadOnlyList<SettingChange>)new SettingHistory(workshop).Last(),
                Devices = (IReadOnlyList<Device>)devices.All(),
                Code = devices.Code,
                workshop.Folder,
                Fault = fault,
                Done = done,
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            },
            fault is not null
        );
    }

    private static async Task<IResult> Answers(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Show(context, forms, workshop, Forms.Stale, null);
        }

        var who = Visitor.Of(context).Name;
        if (form["later"] == "yes")
        {
            new KeepAnswers(workshop).PutOff(who);
            return Results.Redirect("/");
        }

        var keep = new KeepAnswers(workshop);
        // The first start has none: nobody else has answered before.
        if (form["stand"].ToString() is { Length: > 0 } stand && stand != keep.Stand())
        {
            return Show(context, forms, workshop, $"{BookWords.MovedTitle} {RoomWords.AnswersMoved}", null);
        }

        var wished = QuestionsForm.Read(form, keep.Now());
        return keep.Run(wished, who) is { } fault
            ? Show(context, forms, workshop, Say.Fault(fault), null, wished)
            : Results.Redirect("/workshop?kept=yes");
    }

    private static async Task<IResult> Network(
        HttpContext context,
        IAntiforgery forms,
        OpenedWorkshop workshop,
        NetworkDoor door
    )
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Show(context, forms, workshop, Forms.Stale, null);
        }

        _ = int.TryParse(form["port"], CultureInfo.InvariantCulture, out var port);
        return await door.Run(new(form["network"] == "on", port), Visitor.Of(context).Name) is { } fault
            ? Show(context, forms, workshop, Say.Fault(fault), null)
            : Results.Redirect("/workshop#letting-in");
    }

    private static async Task<IResult> Code(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Show(context, forms, workshop, Forms.Stale, null);
        }

        new Devices(workshop).NewCode(form["role"] == "owner" ? Role.Owner : Role.Helper);
        return Results.Redirect("/workshop#devices");
    }

    private static async Task<IResult> ThrowOut(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (
            await Forms.Read(context, forms) is not { } form
            || !int.TryParse(form["device"], CultureInfo.InvariantCulture, out var device)
        )
        {
            return Show(context, forms, workshop, Forms.Stale, null);
        }

        new Devices(workshop).ThrowOut(device, Visitor.Of(context).Name);
        return Results.Redirect("/workshop#devices");
    }

    private static Task<IResult> Backup(OpenedWorkshop workshop) =>
        Download(workshop, "", RoomWords.NoBackup, new BackUpWorkshop(workshop).Run);

    // The folder that the command writes, in one file.
    private static Task<IResult> Export(OpenedWorkshop workshop) =>
        Download(
            workshop,
            "-export",
            RoomWords.NoExport,
            file =>
            {
                var folder = Path.Combine(Path.GetDirectoryName(file)!, "export");
                if (new ExportWorkshop(workshop).Run(folder) is { } fault)
                {
                    return fault;
                }

                ZipFile.CreateFromDirectory(folder, file, CompressionLevel.Fastest, includeBaseDirectory: false);
                Directory.Delete(folder, recursive: true);
                return null;
            }
        );

    private static async Task<IResult> Download(
        OpenedWorkshop workshop,
        string what,
        string not,
        Func<string, Fault?> write
    )
    {
        var folder = Directory.CreateTempSubdirectory("coldpeel-download-").FullName;
        var file = Path.Combine(folder, "all.zip");
        if (await Task.Run(() => write(file)) is { } fault)
        {
            Directory.Delete(folder, recursive: true);
            return Pages.Of<MessagePage>(
                new { Title = not, Words = Say.Fault(fault) },
                StatusCodes.Status500InternalServerError
            );
        }

        var stream = new FileStream(
            file,
            FileMode.Open,
            FileAccess.Read,
            FileShare.None,
            65536,
            FileOptions.DeleteOnClose
        );
        var name = string.Create(CultureInfo.InvariantCulture, $"coldpeel{what}-{workshop.Now:yyyy-MM-dd-HHmm}.zip");
        return new Sent(Results.Stream(stream, "application/zip", name), folder);
    }

    private static async Task<IResult> Restore(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        // A backup is larger than any order: it goes to the disk as it comes.
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
        {
            limit.MaxRequestBodySize = MostBackupBytes;
        }

        context.Features.Set<IFormFeature>(
            new FormFeature(context.Request, new() { MultipartBodyLengthLimit = MostBackupBytes })
        );
        if (await Forms.Read(context, forms) is not { Files: [{ Length: > 0 } sent, ..] })
        {
            return Show(context, forms, workshop, RoomWords.ChooseBackup + " " + Forms.Stale, null);
        }

        var folder = Directory.CreateTempSubdirectory("coldpeel-restore-").FullName;
        try
        {
            var file = Path.Combine(folder, "backup.zip");
            await using (var to = File.Create(file))
            {
                await sent.CopyToAsync(to, context.RequestAborted);
            }

            var fault = await Task.Run(() => new RestoreWorkshop(workshop).Run(file, Visitor.Of(context).Name));
            return Show(
                context,
                forms,
                workshop,
                fault?.ToString().Replace(file, sent.FileName, StringComparison.Ordinal),
                fault is null ? RoomWords.BackupIsBack : null
            );
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static RazorComponentResult Door(HttpContext context, IAntiforgery forms, string? fault)
    {
        var tokens = forms.GetAndStoreTokens(context);
        return Pages.Of<JoinPage>(
            new
            {
                Fault = fault,
                Token = tokens.RequestToken ?? "",
                TokenField = tokens.FormFieldName,
            },
            fault is not null
        );
    }

    private static async Task<IResult> Join(HttpContext context, IAntiforgery forms, OpenedWorkshop workshop)
    {
        if (await Forms.Read(context, forms) is not { } form)
        {
            return Door(context, forms, Forms.Stale);
        }

        var code = string.Concat(form["code"].ToString().Where(char.IsAsciiDigit));
        if (new Devices(workshop).Join(code, form["name"].ToString()) is not { } secret)
        {
            return Door(context, forms, RoomWords.CodeNotGood);
        }

        context.Response.Cookies.Append(
            Gate.Cookie,
            secret,
            new()
            {
                HttpOnly = true,
                SameSite = SameSiteMode.Strict,
                Secure = context.Request.IsHttps,
                MaxAge = TimeSpan.FromDays(400),
                IsEssential = true,
            }
        );
        return Results.Redirect("/");
    }

    private sealed class Sent(IResult file, string folder) : IResult
    {
        public async Task ExecuteAsync(HttpContext httpContext)
        {
            try
            {
                await file.ExecuteAsync(httpContext);
            }
            finally
            {
                Directory.Delete(folder, recursive: true);
            }
        }
    }
}
