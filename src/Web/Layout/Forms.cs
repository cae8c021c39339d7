using Coldpeel.Desk.Orders;
using Coldpeel.Web.Words;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Layout;

/// <summary>Forms of our own pages.</summary>
internal static class Forms
{
    /// <summary>What to say when a form is refused.</summary>
    public static string Stale => LayoutWords.Stale;

    /// <summary>The files that came with a form.</summary>
    public static async Task<IReadOnlyList<HandedFile>> Files(IFormFileCollection sent, CancellationToken stop)
    {
        var files = new List<HandedFile>();
        foreach (var file in sent.Where(f => f.FileName.Length > 0))
        {
            using var bytes = new MemoryStream((int)file.Length);
            await file.CopyToAsync(bytes, stop);
            files.Add(new(file.FileName, bytes.ToArray()));
        }

        return files;
    }

    /// <summary>The form, when one of our own pages sent it; else null. Its lengths are in the unit that it was shown in.</summary>
    public static async Task<IFormCollection?> Read(HttpContext context, IAntiforgery forms)
    {
        if (!context.Request.HasFormContentType)
        {
            return null;
        }

        try
        {
            var form = await context.Request.ReadFormAsync(context.RequestAborted);
            Reader.As(form);
            await forms.ValidateRequestAsync(context);
            return form;
        }
        catch (Exception refused)
            when (refused is AntiforgeryValidationException or BadHttpRequestException or InvalidDataException)
        {
            return null;
        }
    }
}
